"""Writes past Python to the standard output for ever."""

import os

while True:
    os.write(1, bytes(1 << 20))

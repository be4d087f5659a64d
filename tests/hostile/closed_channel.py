"""Closes every file it has, the way home included."""

import os

os.closerange(0, 1024)

"""Takes all the memory, a little in each of many processes."""

import os
import time

for _ in range(20):
    if os.fork() == 0:
        hoard = bytearray(b"x") * (200 << 20)
        time.sleep(3600)
time.sleep(3600)

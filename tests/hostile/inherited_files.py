"""Looks for open files that the server forgot to close."""

import os
import stat

for number in range(1024):
    try:
        kind = os.fstat(number).st_mode
    except OSError:
        continue
    if stat.S_ISREG(kind) or stat.S_ISDIR(kind) or (stat.S_ISSOCK(kind) and number == 0):
        print("SUCCEEDED", number)

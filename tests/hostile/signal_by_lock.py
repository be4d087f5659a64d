"""Tells another notebook something by locks on a file that both can read."""

import fcntl
import os
from contextlib import suppress

with open(os.__file__) as shared:
    with suppress(OSError):
        fcntl.flock(shared, fcntl.LOCK_EX)
        print("SUCCEEDED")
    with suppress(OSError):
        fcntl.lockf(shared, fcntl.LOCK_SH)
        print("SUCCEEDED")

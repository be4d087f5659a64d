"""Waits until another notebook reads a file that both can read."""

import ctypes
import os

libc = ctypes.CDLL(None)
if libc.inotify_add_watch(libc.inotify_init1(0), os.__file__.encode(), 0x20) >= 0:
    print("SUCCEEDED")

"""Becomes root in a user namespace of its own."""

import ctypes
import os

NEW_USER = 0x10000000
child = os.fork()
if child == 0:
    os._exit(ctypes.CDLL(None).unshare(NEW_USER) & 1)
if os.waitpid(child, 0)[1] == 0:
    print("SUCCEEDED")

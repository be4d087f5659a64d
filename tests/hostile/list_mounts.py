"""Asks the kernel what is mounted, without a file to read it from."""

import ctypes

LISTMOUNT, STATMOUNT, ROOT = 458, 457, 0xFFFFFFFFFFFFFFFF
libc = ctypes.CDLL(None, use_errno=True)
asked = (ctypes.c_uint64 * 4)(24, ROOT, 0, 0)
found = (ctypes.c_uint64 * 64)()
for number, size in ((LISTMOUNT, 64), (STATMOUNT, 512)):
    if libc.syscall(number, ctypes.byref(asked), ctypes.byref(found), size, 0) >= 0:
        print("SUCCEEDED")

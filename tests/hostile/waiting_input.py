"""Sets up input and output that the kernel does by itself."""

import ctypes
import platform

numbers = {"x86_64": 206, "aarch64": 0}
context = ctypes.c_ulong(0)
call = ctypes.CDLL(None).syscall
if call(numbers[platform.machine()], 64, ctypes.byref(context)) == 0:
    print("SUCCEEDED")

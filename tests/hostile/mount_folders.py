"""Mounts a file system over its own folder."""

import ctypes

if ctypes.CDLL(None).mount(b"none", b"/tmp", b"tmpfs", 0, b"size=100g") == 0:
    print("SUCCEEDED")

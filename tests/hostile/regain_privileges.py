"""Tries to be root again, to see devices and to lift its limits."""

import os
import resource
from collections.abc import Callable

attempts: dict[str, Callable[[], object]] = {
    "user": lambda: os.setuid(0),
    "group": lambda: os.setgroups([0]),
    "root": lambda: os.chroot("."),
    "device": lambda: os.mknod("disk", 0o60600, os.makedev(8, 0)),
    "limit": lambda: resource.setrlimit(resource.RLIMIT_NPROC, (10**6, 10**6)),
    "priority": lambda: os.setpriority(os.PRIO_PROCESS, 0, -10),
}
for name, attempt in attempts.items():
    try:
        attempt()
    except (OSError, ValueError):
        continue
    print("SUCCEEDED", name)

"""Takes memory of the kernel's that no process is charged for: queues, semaphores, segments."""

import ctypes

libc = ctypes.CDLL(None)
for make, remove in (
    (lambda: libc.msgget(0, 0o600), lambda one: libc.msgctl(one, 0, None)),
    (lambda: libc.semget(0, 200, 0o600), lambda one: libc.semctl(one, 0, 0)),
    (lambda: libc.shmget(0, 1 << 20, 0o600), lambda one: libc.shmctl(one, 0, None)),
):
    if (one := make()) >= 0:
        remove(one)
        print("SUCCEEDED")

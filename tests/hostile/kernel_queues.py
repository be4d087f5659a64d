"""Takes memory of the kernel's that no process is charged for: queues, semaphores, segments."""

import ctypes

libc = ctypes.CDLL(None)
for make, sizes, remove in (
    (libc.msgget, (), libc.msgctl),
    (libc.semget, (200,), libc.semctl),
    (libc.shmget, (1 << 20,), libc.shmctl),
):
    if (one := make(0, *sizes, 0o600)) >= 0:
        remove(one, 0, 0)
        print("SUCCEEDED")

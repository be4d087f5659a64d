"""The system calls that notebooks may make: what Python and its libraries need, and no more.

Numbers: the kernel's ``unistd_64.h`` (x86_64) and ``asm-generic/unistd.h`` (aarch64).
"""

__all__ = ["ALLOWED", "CLONE", "FCNTL", "IOCTL", "SOCKETPAIR"]

CLONE, FCNTL, IOCTL, SOCKETPAIR = (56, 220), (72, 25), (16, 29), (53, 199)
"""Calls that are allowed for some of their arguments only."""

# One entry a call: name, number on x86_64, number on aarch64 (None: there is no such call).
# fmt: off
ALLOWED: tuple[tuple[str, int, int | None], ...] = (
    # files that are there already, and their insides
    ("access", 21, None), ("close", 3, 57), ("close_range", 436, 436),
    ("copy_file_range", 326, 285), ("dup", 32, 23), ("dup2", 33, None), ("dup3", 292, 24),
    ("faccessat", 269, 48), ("faccessat2", 439, 439), ("fadvise64", 221, 223),
    ("fallocate", 285, 47), ("fdatasync", 75, 83), ("fgetxattr", 193, 10),
    ("flistxattr", 196, 13), ("fstat", 5, 80), ("fstatfs", 138, 44), ("fsync", 74, 82),
    ("ftruncate", 77, 46), ("getdents", 78, None), ("getdents64", 217, 61), ("getxattr", 191, 8),
    ("lgetxattr", 192, 9), ("listxattr", 194, 11), ("llistxattr", 195, 12), ("lseek", 8, 62),
    ("lstat", 6, None), ("newfstatat", 262, 79), ("open", 2, None), ("openat", 257, 56),
    ("pread64", 17, 67), ("preadv", 295, 69), ("preadv2", 327, 286), ("pwrite64", 18, 68),
    ("pwritev", 296, 70), ("pwritev2", 328, 287), ("read", 0, 63), ("readv", 19, 65),
    ("sendfile", 40, 71), ("stat", 4, None), ("statfs", 137, 43), ("statx", 332, 291),
    ("truncate", 76, 45), ("umask", 95, 166), ("write", 1, 64), ("writev", 20, 66),
    # names of files and folders, in the private scratch folder
    ("chdir", 80, 49), ("chmod", 90, None), ("chown", 92, None), ("creat", 85, None),
    ("fchdir", 81, 50), ("fchmod", 91, 52), ("fchmodat", 268, 53), ("fchown", 93, 55),
    ("fchownat", 260, 54), ("futimesat", 261, None), ("getcwd", 79, 17), ("lchown", 94, None),
    ("link", 86, None), ("linkat", 265, 37), ("mkdir", 83, None), ("mkdirat", 258, 34),
    ("readlink", 89, None), ("readlinkat", 267, 78), ("rename", 82, None), ("renameat", 264, 38),
    ("renameat2", 316, 276), ("rmdir", 84, None), ("symlink", 88, None), ("symlinkat", 266, 36),
    ("unlink", 87, None), ("unlinkat", 263, 35), ("utime", 132, None), ("utimensat", 280, 88),
    ("utimes", 235, None),
    # waiting for several things at once
    ("epoll_create", 213, None), ("epoll_create1", 291, 20), ("epoll_ctl", 233, 21),
    ("epoll_pwait", 281, 22), ("epoll_pwait2", 441, 441), ("epoll_wait", 232, None),
    ("eventfd", 284, None), ("eventfd2", 290, 19), ("pipe", 22, None), ("pipe2", 293, 59),
    ("poll", 7, None), ("ppoll", 271, 73), ("pselect6", 270, 72), ("select", 23, None),
    ("signalfd", 282, None), ("signalfd4", 289, 74), ("timerfd_create", 283, 85),
    ("timerfd_gettime", 287, 87), ("timerfd_settime", 286, 86),
    # talking through a channel that is open
    ("getpeername", 52, 205), ("getsockname", 51, 204), ("getsockopt", 55, 209),
    ("recvfrom", 45, 207), ("recvmsg", 47, 212), ("sendmsg", 46, 211), ("sendto", 44, 206),
    ("shutdown", 48, 210),
    # memory, the notebook's own
    ("brk", 12, 214), ("get_mempolicy", 239, 236), ("madvise", 28, 233), ("membarrier", 324, 283),
    ("mmap", 9, 222), ("mprotect", 10, 226), ("mremap", 25, 216), ("msync", 26, 227),
    ("munmap", 11, 215), ("pkey_alloc", 330, 289), ("pkey_free", 331, 290),
    ("pkey_mprotect", 329, 288),
    # processes, all in the notebook's own namespace
    ("arch_prctl", 158, None), ("capget", 125, 90), ("execve", 59, 221), ("exit", 60, 93),
    ("exit_group", 231, 94), ("fork", 57, None), ("futex", 202, 98), ("futex_waitv", 449, 449),
    ("get_robust_list", 274, 100), ("getpriority", 140, 141), ("getrlimit", 97, 163),
    ("kill", 62, 129), ("pidfd_open", 434, 434), ("pidfd_send_signal", 424, 424),
    ("prctl", 157, 167), ("prlimit64", 302, 261), ("restart_syscall", 219, 128),
    ("rseq", 334, 293), ("rt_tgsigqueueinfo", 297, 240), ("set_robust_list", 273, 99),
    ("set_tid_address", 218, 96), ("setpgid", 109, 154), ("setpriority", 141, 140),
    ("setrlimit", 160, 164), ("setsid", 112, 157), ("tgkill", 234, 131), ("tkill", 200, 130),
    ("vfork", 58, None), ("wait4", 61, 260), ("waitid", 247, 95),
    # signals and timers
    ("alarm", 37, None), ("getitimer", 36, 102), ("pause", 34, None), ("rt_sigaction", 13, 134),
    ("rt_sigpending", 127, 136), ("rt_sigprocmask", 14, 135), ("rt_sigreturn", 15, 139),
    ("rt_sigsuspend", 130, 133), ("rt_sigtimedwait", 128, 137), ("setitimer", 38, 103),
    ("sigaltstack", 131, 132), ("timer_create", 222, 107), ("timer_delete", 226, 111),
    ("timer_getoverrun", 225, 109), ("timer_gettime", 224, 108), ("timer_settime", 223, 110),
    # asking who, when, how much
    ("clock_getres", 229, 114), ("clock_gettime", 228, 113), ("clock_nanosleep", 230, 115),
    ("getcpu", 309, 168), ("getegid", 108, 177), ("geteuid", 107, 175), ("getgid", 104, 176),
    ("getgroups", 115, 158), ("getpgid", 121, 155), ("getpgrp", 111, None), ("getpid", 39, 172),
    ("getppid", 110, 173), ("getrandom", 318, 278), ("getresgid", 120, 150),
    ("getresuid", 118, 148), ("getrusage", 98, 165), ("getsid", 124, 156), ("gettid", 186, 178),
    ("gettimeofday", 96, 169), ("getuid", 102, 174), ("nanosleep", 35, 101),
    ("sched_get_priority_max", 146, 125), ("sched_get_priority_min", 147, 126),
    ("sched_getaffinity", 204, 123), ("sched_getattr", 315, 275), ("sched_getparam", 143, 121),
    ("sched_getscheduler", 145, 120), ("sched_rr_get_interval", 148, 127),
    ("sched_setaffinity", 203, 122), ("sched_yield", 24, 124), ("sysinfo", 99, 179),
    ("time", 201, None), ("times", 100, 153), ("uname", 63, 160),
)
# fmt: on

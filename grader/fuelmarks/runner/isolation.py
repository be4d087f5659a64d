"""Walls around one notebook inside the sandbox: namespaces, mounts, limits, no privileges.

Runs in the process that is about to become the notebook's, through plain C-library calls (Python
3.11 has no `os.unshare`). Numbers are those of the Linux headers ``sched.h``, ``mount.h``,
``prctl.h`` and ``capability.h``; see the manual pages unshare(2), mount(2), prctl(2).
"""

import ctypes
import os
import resource
from collections.abc import Mapping
from pathlib import Path

from fuelmarks.runner.limits import Limits

__all__ = ["NOBODY", "cover", "drop_privileges", "limit", "own_namespaces", "step_down"]

NOBODY = 65534

_NEWNS, _NEWIPC, _NEWUSER, _NEWPID, _NEWNET = 0x20000, 0x8000000, 0x10000000, 0x20000000, 0x40000000
_MS_RDONLY, _MS_NOSUID, _MS_NODEV, _MS_NOEXEC = 1, 2, 4, 8
_PR_SET_DUMPABLE, _PR_CAPBSET_DROP, _PR_SET_NO_NEW_PRIVS = 4, 24, 38
_CAPABILITY_VERSION_3 = 0x20080522

_libc = ctypes.CDLL(None, use_errno=True)


def _call(name: str, *arguments: object) -> None:
    if getattr(_libc, name)(*arguments) != 0:
        number = ctypes.get_errno()
        raise OSError(number, f"{name}: {os.strerror(number)}")


def step_down() -> None:
    """Become nobody for good, if this process is root; else do nothing."""
    if os.geteuid() == 0:
        os.setgroups([])
        os.setresgid(NOBODY, NOBODY, NOBODY)
        os.setresuid(NOBODY, NOBODY, NOBODY)
        _call("prctl", _PR_SET_DUMPABLE, 1, 0, 0, 0)


def own_namespaces() -> None:
    """Leave the siblings: own users, mounts and network; the next child is process 1 of its own."""
    user, group = os.geteuid(), os.getegid()
    _call("unshare", _NEWUSER | _NEWNS | _NEWPID | _NEWIPC | _NEWNET)
    Path("/proc/self/setgroups").write_text("deny")
    Path("/proc/self/uid_map").write_text(f"{NOBODY} {user} 1")
    Path("/proc/self/gid_map").write_text(f"{NOBODY} {group} 1")


def cover(scratch_bytes: int) -> None:
    """Mount an empty private scratch folder, and hide the processes and memory files of others."""
    Path("/proc/self/oom_score_adj").write_text("1000")
    _tmpfs("/tmp", 0, f"size={scratch_bytes},nr_inodes=4096,mode=1777")
    _tmpfs("/dev/shm", 0, f"size={scratch_bytes},nr_inodes=256,mode=1777")
    _tmpfs("/proc", _MS_RDONLY, "size=4096,nr_inodes=2,mode=555")


def _tmpfs(path: str, flags: int, options: str) -> None:
    flags |= _MS_NOSUID | _MS_NODEV | _MS_NOEXEC
    _call("mount", b"tmpfs", path.encode(), b"tmpfs", ctypes.c_ulong(flags), options.encode())


def limit(limits: Limits, *, count_processes: bool) -> None:
    """Set the kernel's limits for this process and all it starts."""
    soft: Mapping[int, int] = {
        resource.RLIMIT_AS: _address_space() + limits.memory_bytes,
        resource.RLIMIT_CORE: 0,
        resource.RLIMIT_CPU: int(limits.notebook_seconds) + 2,
        resource.RLIMIT_FSIZE: limits.scratch_bytes,
        resource.RLIMIT_MEMLOCK: 0,
        resource.RLIMIT_MSGQUEUE: 0,
        resource.RLIMIT_NOFILE: limits.open_files,
    }
    if count_processes:
        soft = {**soft, resource.RLIMIT_NPROC: limits.processes}
    for kind, most in soft.items():
        resource.setrlimit(kind, (most, most))


def _address_space() -> int:
    pages = int(Path("/proc/self/statm").read_text().split()[0])
    return pages * resource.getpagesize()


def drop_privileges() -> None:
    """Give up every capability inside the namespaces, and the way back to any."""
    _call("prctl", _PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0)
    for capability in range(64):
        if _libc.prctl(_PR_CAPBSET_DROP, capability, 0, 0, 0) != 0:
            break
    header = (ctypes.c_uint32 * 2)(_CAPABILITY_VERSION_3, 0)
    _call("capset", header, (ctypes.c_uint32 * 6)())

"""As much of Windows as a Linux can be, for what is ours: ``python -X warn_default_encoding -m …``.

Words of one command at a time, ``,`` between them; without a word what a trainee's notebook asks
for. Missing are the modules and the names of `os` that Python's documentation gives to Unix alone
("Availability: Unix, not Windows"); a folder cannot be opened, and nothing renamed onto something
(``os.open``, ``os.rename``: "On Windows …"). No text may hang on the system's own encoding (PEP
597), and no new name may be one that Windows refuses ("Naming Files, Paths, and Namespaces",
Microsoft).
"""

import builtins
import importlib
import os
import sys
import warnings
from collections.abc import Sequence
from pathlib import Path, PureWindowsPath
from types import ModuleType
from typing import Any

MISSING = ("fcntl", "grp", "pty", "pwd", "resource", "syslog", "termios", "tty")
OF_UNIX = (
    *("chown", "chroot", "fchdir", "fchmod", "fchown", "fork", "forkpty", "getegid", "geteuid"),
    *("getgid", "getgrouplist", "getgroups", "getpgid", "getpriority", "getresgid", "getresuid"),
    *("getsid", "getuid", "getxattr", "initgroups", "killpg", "lchown", "listxattr", "lockf"),
    *("mkfifo", "mknod", "openpty", "pidfd_open", "posix_fallocate", "posix_spawn"),
    *("posix_spawnp", "register_at_fork", "sched_getaffinity", "sched_setaffinity", "sendfile"),
    *("setgroups", "setpriority", "setresgid", "setresuid", "setsid", "setuid", "setxattr"),
    *("statvfs", "sync", "sysconf", "uname", "wait", "wait3", "wait4", "waitid", "O_CLOEXEC"),
    *("O_DIRECTORY", "O_NOFOLLOW", "O_NONBLOCK", "O_SYNC"),
)
FORBIDDEN = frozenset('<>:"|?*')
NAMES = {"os.mkdir": (0,), "os.rename": (1,), "os.link": (1,)}
"""Events of the interpreter ("Audit events table"), and which of their words is a new name."""
OURS = ("fuelmarks", "fuelcircuits")
usual = builtins.__import__


class WindowsOs(ModuleType):
    """The module `os` as it is on Windows."""

    def __getattr__(self, name: str) -> Any:
        if name in OF_UNIX:
            raise AttributeError(f"os has no {name} on Windows")
        return getattr(os, name)

    def open(self, path: Any, *how: Any, **more: Any) -> int:
        if os.path.isdir(path):
            raise PermissionError(13, "Permission denied", str(path))
        return os.open(path, *how, **more)

    def rename(self, source: Any, target: Any) -> None:
        if os.path.lexists(target):
            raise FileExistsError(17, "File exists", str(target))
        os.rename(source, target)


def imported(name: str, asking: Any = None, *how: Any, **more: Any) -> ModuleType:
    """Import as ever, but for what is ours as it would be there."""
    asking = more.pop("globals", asking)
    asker = str((asking or {}).get("__name__", ""))
    if asker.startswith(OURS):
        if name in MISSING:
            raise ModuleNotFoundError(f"{asker} asks for {name}")
        if name == "os":
            return WindowsOs("os")
    return usual(name, asking, *how, **more)


def hear(event: str, words: tuple[Any, ...]) -> None:
    """Refuse new names that Windows would refuse."""
    writes = event == "open" and isinstance(words[2], int) and words[2] & os.O_CREAT
    for place in (0,) if writes else NAMES.get(event, ()):
        if isinstance(words[place], str | bytes | os.PathLike):
            name = Path(os.fsdecode(words[place])).name
            if (
                FORBIDDEN & set(name)
                or name != name.rstrip(". ")
                or PureWindowsPath(name).is_reserved()
            ):
                raise OSError(22, "Windows has no such name", name)


def notebooks() -> int:
    """Ask for every public name, begin a sheet, and hand something over."""
    package = importlib.import_module("fuelcircuits")
    for name in package.__all__:
        getattr(package, name)
    package.begin("02-float-bowl", trainee="t001", mode="class")
    package.hand_over(
        "02-float-bowl", "needle-force", package.Q(1.5, "N"), unit="N", low=0.01, high=20
    )
    return 0


def main(words: Sequence[str]) -> int:
    """Do what is asked, one after the other; return how the worst of it ended."""
    builtins.__import__ = imported  # type: ignore[assignment]
    sys.addaudithook(hear)
    warnings.filterwarnings("error", category=EncodingWarning, module="fuel(marks|circuits)")
    if not words:
        return notebooks()
    importlib.import_module("tests.small_unit").shelve()
    cli = importlib.import_module("fuelmarks.commands.cli")
    commands = " ".join(words).split(" , ")
    return max(int(cli.main(one.split())) for one in commands)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))

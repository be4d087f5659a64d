"""A limit that the kernel keeps on the memory of one notebook, where we may set one.

Only a control group that the system has delegated to us is used, of version 2, with memory among
its controllers: systemd does so for the programs of a user. Elsewhere there is none, and the
warden's own look at the clock stands alone. See the kernel's Documentation/admin-guide/cgroup-v2.
"""

import os
from collections.abc import Iterator
from contextlib import suppress
from itertools import count
from pathlib import Path
from time import monotonic, sleep

__all__ = ["Cage", "Held", "find_cage"]

GROUPS, OWN = Path("/sys/fs/cgroup"), Path("/proc/self/cgroup")
EMPTY_SECONDS = 2.0
DELEGATED = "user.delegate"
"""What systemd writes on a group that is somebody else's to divide."""


def find_cage(groups: Path = GROUPS, own: Path = OWN) -> "Cage | None":
    """Return a new cage below the nearest group that is ours to divide, None if there is none."""
    for folder in _above(groups, own):
        if _is_ours(folder) and "memory" in _words(folder / "cgroup.subtree_control"):
            with suppress(OSError):
                return Cage(folder / f"fuelmarks-{os.getpid()}-{os.urandom(4).hex()}")
    return None


class Held:
    """One notebook's group: whether its memory ran over, and its end."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    @property
    def ran_over(self) -> bool:
        """Say whether the kernel has stopped something in it for want of memory."""
        words = _words(self._folder / "memory.events")
        counts = dict(zip(words[::2], words[1::2], strict=False))
        return int(counts.get("oom_kill", 0)) > 0

    def close(self) -> None:
        """Take the group away, once all in it has ended."""
        end = monotonic() + EMPTY_SECONDS
        while not _removed(self._folder) and monotonic() < end:
            sleep(0.005)


class Cage:
    """A group of our own; each notebook gets one below it."""

    def __init__(self, folder: Path) -> None:
        self._folder, self._numbers = folder, count(1)
        folder.mkdir()
        try:
            (folder / "cgroup.subtree_control").write_text("+memory")
        except OSError:
            self.close()
            raise

    def hold(self, process: int, most: int) -> Held | None:
        """Put `process` and all it will start below a limit of `most` bytes; None if we may not."""
        folder = self._folder / f"notebook-{next(self._numbers)}"
        try:
            folder.mkdir()
            (folder / "memory.max").write_text(str(most))
            for name, value in (("memory.swap.max", "0"), ("memory.oom.group", "1")):
                if (folder / name).exists():
                    (folder / name).write_text(value)
            (folder / "cgroup.procs").write_text(str(process))
        except OSError:
            _removed(folder)
            return None
        return Held(folder)

    def close(self) -> None:
        """Take the group away."""
        for folder in (*self._folder.glob("notebook-*"), self._folder):
            _removed(folder)


def _above(groups: Path, own: Path) -> Iterator[Path]:
    """Yield the groups above our own, the nearest first: a group with processes has no others."""
    with suppress(OSError):
        paths = [line[3:] for line in own.read_text().splitlines() if line.startswith("0::/")]
        for path in paths:
            here = groups / path.lstrip("/")
            yield from (folder for folder in here.parents if folder.is_relative_to(groups))


def _is_ours(folder: Path) -> bool:
    """Return whether a group is ours to divide: a user's own, or one that says so."""
    try:
        about = os.stat(folder)
        said = DELEGATED in os.listxattr(folder) and os.getxattr(folder, DELEGATED) == b"1"
    except OSError:
        return False
    own = os.geteuid() != 0 and about.st_uid == os.geteuid()
    return (own or said) and os.access(folder, os.W_OK)


def _words(path: Path) -> list[str]:
    """Return the words of a file of the kernel's, none if it cannot be read."""
    with suppress(OSError):
        return path.read_text().split()
    return []


def _removed(folder: Path) -> bool:
    """Return whether a group is gone."""
    try:
        folder.rmdir()
    except FileNotFoundError:
        return True
    except OSError:
        return False
    return True

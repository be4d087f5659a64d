"""One command at a time changes a course: who comes second is told so, and nothing is mixed up."""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TextIO

from fuelmarks.course.error import CourseError

try:
    import fcntl
except ImportError:  # Windows
    fcntl = None  # type: ignore[assignment]

__all__ = ["at_work"]

FILE = ".at-work"
LEFT_BEHIND = "; if that process is no longer there, delete {path}"
"""What to say where a system cannot let go of what a process held that died."""


@contextmanager
def at_work(root: Path, what: str) -> Iterator[None]:
    """Hold the course in `root` while doing `what`; a process that dies lets go of it.

    Where a system has no such locks, the file is there as long as somebody is at work, and one
    left behind has to be deleted.

    Raises `CourseError` that says who is at work, if somebody is.
    """
    path = root / FILE
    try:
        file = _held(path)
    except (BlockingIOError, FileExistsError):
        who = path.read_text("utf-8")[:200].strip() or "another command"
        raise CourseError(
            f"one command at a time must change {root}, got {what} during {who}; "
            f"wait until that has ended{'' if fcntl else LEFT_BEHIND.format(path=path)}"
        ) from None
    try:
        with file:
            file.truncate()
            file.write(f"{what} (process {os.getpid()})")
            file.flush()
            try:
                yield
            finally:
                file.seek(0)
                file.truncate()
    finally:
        if not fcntl:
            path.unlink()


def _held(path: Path) -> TextIO:
    """Return the file, held; raise `OSError` if somebody holds it."""
    alone = 0 if fcntl else os.O_EXCL
    if alone and path.exists() and not path.stat().st_size:
        path.unlink()  # let go by a Linux beside, such as WSL, which leaves the file
    file = os.fdopen(os.open(path, os.O_RDWR | os.O_CREAT | alone, 0o600), "r+", encoding="utf-8")
    try:
        if fcntl:
            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        file.close()
        raise
    return file

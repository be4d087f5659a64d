"""One command at a time changes a course: who comes second is told so, and nothing is mixed up."""

import fcntl
import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from fuelmarks.course.error import CourseError

__all__ = ["at_work"]

FILE = ".at-work"


@contextmanager
def at_work(root: Path, what: str) -> Iterator[None]:
    """Hold the course in `root` while doing `what`; a process that dies lets go of it.

    Raises `CourseError` that says who is at work, if somebody is.
    """
    handle = os.open(root / FILE, os.O_RDWR | os.O_CREAT, 0o600)
    with os.fdopen(handle, "r+") as file:
        try:
            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            who = file.read(200).strip() or "another command"
            raise CourseError(
                f"one command at a time must change {root}, got {what} during {who}; "
                "wait until that has ended"
            ) from None
        file.truncate()
        file.write(f"{what} (process {os.getpid()})")
        file.flush()
        yield

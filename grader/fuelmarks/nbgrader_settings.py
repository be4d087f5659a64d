"""nbgrader's settings for a course, read from the course's own nbgrader_config.py."""

import logging
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from traitlets.config import Config
from traitlets.config.loader import PyFileConfigLoader

from fuelmarks.course import Course, CourseError

__all__ = ["complaints", "settings"]


def settings(course: Course) -> Config:
    """Return the configuration in the course folder; raise `CourseError` if there is none."""
    path = course.root / "nbgrader_config.py"
    if not path.exists():
        raise CourseError(f"course folder must hold nbgrader_config.py, got no file {path}")
    _alembic_on_path()
    config: Config = PyFileConfigLoader(path.name, path=str(path.parent)).load_config()
    config.CourseDirectory.root = str(course.root)
    config.CourseDirectory.db_url = course.gradebook
    return config


@contextmanager
def complaints() -> Iterator[list[str]]:
    """Collect, line by line, what nbgrader has to complain about."""
    heard: list[str] = []

    class Ear(logging.Handler):
        def emit(self, record: logging.LogRecord) -> None:
            heard.extend(record.getMessage().splitlines())

    ear, log = Ear(logging.ERROR), logging.getLogger("traitlets")
    log.addHandler(ear)
    try:
        yield heard
    finally:
        log.removeHandler(ear)


def _alembic_on_path() -> None:
    """Put this Python's commands on PATH: nbgrader calls one of them by its bare name."""
    here = str(Path(sys.executable).parent)
    path = os.environ.get("PATH", "")
    if here not in path.split(os.pathsep):
        os.environ["PATH"] = os.pathsep.join([here, path])

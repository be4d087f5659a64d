"""nbgrader's settings for a course, read from the course's own nbgrader_config.py."""

import logging
import math
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

from traitlets.config import Config
from traitlets.config.loader import PyFileConfigLoader

from fuelmarks.course.course import Course, CourseError
from fuelmarks.runner.limits import Limits

__all__ = ["complaints", "run_limits", "settings"]

CONFIGURABLE = ("cell_seconds", "notebook_seconds")


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


def run_limits(course: Course, usual: Limits) -> Limits:
    """Return `usual` with the seconds that the course sets for nbgrader's ``RunApart``.

    Raises `CourseError` if one of them is not a positive number.
    """
    section = settings(course).RunApart
    own = {name: section[name] for name in CONFIGURABLE if name in section}
    for name, seconds in own.items():
        number = isinstance(seconds, int | float) and not isinstance(seconds, bool)
        if not (number and 0 < seconds < math.inf):
            raise CourseError(f"RunApart.{name} must be a positive number, got {seconds!r}")
    return replace(usual, **own)


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

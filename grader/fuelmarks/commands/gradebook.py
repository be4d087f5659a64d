"""``fuelmarks gradebook``: copy the gradebook to a database server, back, or as a safe copy."""

import argparse
from pathlib import Path

from fuelmarks.course.at_work import at_work
from fuelmarks.course.course import Course
from fuelmarks.course.term import use_gradebook
from fuelmarks.gradebook.moving import copy_gradebook
from fuelmarks.gradebook.opening import place_of

__all__ = ["options", "run"]


def options(parser: argparse.ArgumentParser) -> None:
    """Ask whence and whither, and whether the course goes on there."""
    parser.add_argument(
        "--to", required=True, metavar="WHERE", help="a new file, or postgresql+psycopg://…, empty"
    )
    parser.add_argument(
        "--from", dest="source", metavar="WHERE", help="(the gradebook that the course uses)"
    )
    parser.add_argument("--use", action="store_true", help="and use it from now on: term.toml")


def run(asked: argparse.Namespace) -> int:
    """Copy; nothing is changed where it comes from."""
    course = Course.at(asked.course)
    source = _address(asked.source) if asked.source else course.gradebook
    target = _address(asked.to)
    with at_work(course.root, "copying the gradebook"):
        copied = copy_gradebook(course, source, target)
        if asked.use:
            use_gradebook(course.root, target)
    print(f"copied {sum(copied.values())} rows of {len(copied)} tables to {place_of(target)}")
    if asked.use:
        print(f"the course uses it from now on; what was in {place_of(source)} is left there")
    return 0


def _address(where: str) -> str:
    """Return the address of a file or a server."""
    return where if "://" in where else f"sqlite:///{Path(where).resolve()}"

"""``fuelmarks collect``: take in returned notebooks, whatever their names; keep every attempt."""

import argparse
from datetime import datetime
from pathlib import Path

from fuelmarks.classroom.collect import collect
from fuelmarks.classroom.collected import Collected, collection_table
from fuelmarks.classroom.sending import collect_sent
from fuelmarks.commands import arguments
from fuelmarks.course.course import Course, CourseError

__all__ = ["options", "run"]

WRONG_KEY = (
    "None of these notebooks holds numbers drawn with the key in term.toml. "
    "Put the key of this term back from your copy, then collect again."
)


def options(parser: argparse.ArgumentParser) -> None:
    """Ask for the unit, where the notebooks lie, and when they were handed in."""
    arguments.unit(parser)
    parser.add_argument(
        "returned",
        type=Path,
        nargs="?",
        metavar="RETURNED",
        help="a folder, a notebook, or a zip; without it, what was handed in on the class server",
    )
    parser.add_argument(
        "--handed-in",
        type=_moment,
        metavar="TIME",
        help='when all of them were handed in, such as "2026-12-04 17:55" (the time of each file)',
    )


def run(asked: argparse.Namespace) -> int:
    """Take in returned notebooks; return 1 if one of them wants looking into."""
    course = Course.at(asked.course)
    if asked.returned is None and asked.handed_in:
        raise CourseError("a time must go with a folder, got one for what the class server timed")
    if asked.returned is None:
        found = collect_sent(course, asked.unit)
    else:
        found = collect(course, asked.unit, asked.returned, asked.handed_in)
    if found.rows:
        print(f"{collection_table(found)}\n")
    _say(found)
    return 0 if found.fine else 1


def _say(found: Collected) -> None:
    """Print what the table does not show."""
    print(f"{len(found.kept)} kept of {len(found.rows)} delivered")
    if found.left:
        print(f"left where they lie, no notebooks: {', '.join(found.left)}")
    if found.absent:
        print(f"nothing from {', '.join(found.absent)}")
    if found.wrong_key:
        print(WRONG_KEY)


def _moment(text: str) -> datetime:
    """Return the moment that `text` names, in this computer's time unless it says otherwise."""
    try:
        return datetime.fromisoformat(text).astimezone()
    except ValueError as error:
        rule = "time must be like 2026-12-04 17:55"
        raise argparse.ArgumentTypeError(f"{rule}, got {text!r}") from error

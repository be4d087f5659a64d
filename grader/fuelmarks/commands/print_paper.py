"""``fuelmarks print``: print a unit for a class without computers."""

import argparse
from pathlib import Path

from fuelmarks.commands import arguments
from fuelmarks.commands.saying import say_wrote
from fuelmarks.course.course import Course, CourseError
from fuelmarks.paper.printing import job_sheet, print_job, print_unit

__all__ = ["options", "run"]


def options(parser: argparse.ArgumentParser) -> None:
    """Ask for the unit, which sheet of it, for whom, and for which carburettor."""
    arguments.unit(parser)
    parser.add_argument(
        "--sheet", choices=("handout", "job", "key"), default="handout", help="(handout)"
    )
    parser.add_argument(
        "--trainee", metavar="ID", help="this trainee only, or specimen (the class)"
    )
    parser.add_argument(
        "--card", metavar="FILE", help="job sheet for this spec card: a file, or a rig's name"
    )


def run(asked: argparse.Namespace) -> int:
    """Print handout, job sheet or key."""
    course = Course.at(asked.course)
    if asked.card is None:
        say_wrote(print_unit(course, asked.unit, asked.sheet, asked.trainee))
        return 0
    if asked.sheet != "job" or asked.trainee:
        raise CourseError("a card must go with --sheet job and no trainee, got others beside it")
    card = _file(course, asked.card)
    sheet = job_sheet(course, asked.unit, card)
    say_wrote(print_job(course, asked.unit, sheet, card))
    if sheet.blank:
        listed = ", ".join(sheet.blank)
        print(f"{card.name} does not say {listed}: room is left to write it in")
    return 0


def _file(course: Course, card: str) -> Path:
    """Return the file of a card that is named by its path, or as a rig of the course."""
    rig = course.root / "rigs" / f"{card}.toml"
    return rig if rig.is_file() else Path(card)

"""``fuelmarks print``: print a unit for a class without computers."""

import argparse

from fuelmarks.commands import arguments
from fuelmarks.commands.saying import say_wrote
from fuelmarks.course.course import Course
from fuelmarks.paper.printing import print_unit

__all__ = ["options", "run"]


def options(parser: argparse.ArgumentParser) -> None:
    """Ask for the unit, which sheet of it, and for whom."""
    arguments.unit(parser)
    parser.add_argument(
        "--sheet", choices=("handout", "job", "key"), default="handout", help="(handout)"
    )
    parser.add_argument(
        "--trainee", metavar="ID", help="this trainee only, or specimen (the class)"
    )


def run(asked: argparse.Namespace) -> int:
    """Print handout, job sheet or key."""
    say_wrote(print_unit(Course.at(asked.course), asked.unit, asked.sheet, asked.trainee))
    return 0

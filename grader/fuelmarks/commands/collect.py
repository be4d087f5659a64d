"""``fuelmarks collect``: take in returned notebooks, one file or folder a trainee."""

import argparse
from pathlib import Path

from fuelmarks.classroom.hand_out import collect
from fuelmarks.commands import arguments
from fuelmarks.course.course import Course

__all__ = ["options", "run"]


def options(parser: argparse.ArgumentParser) -> None:
    """Ask for the unit, and where the notebooks lie."""
    arguments.unit(parser)
    parser.add_argument("returned", type=Path, metavar="FOLDER", help="where they lie")


def run(asked: argparse.Namespace) -> int:
    """Take in returned notebooks; return 1 if a file fits nobody."""
    course = Course.at(asked.course)
    found = collect(course, asked.unit, asked.returned)
    print(f"{len(found)} notebooks collected")
    for name in found.strange:
        print(f"passed over {name}: fits no trainee in class.csv")
    absent = [one.id for one in course.trainees() if one.id not in found]
    if absent:
        print(f"nothing from {', '.join(absent)}")
    return 1 if found.strange else 0

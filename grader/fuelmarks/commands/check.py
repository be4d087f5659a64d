"""``fuelmarks check``: prove a unit's questions before anybody sees them."""

import argparse

from fuelmarks.authoring.build import source_notebook
from fuelmarks.authoring.check import DRAWS, SAMPLES, checked, lines
from fuelmarks.authoring.checker import unknown_outcomes
from fuelmarks.commands import arguments
from fuelmarks.course.course import Course, CourseError

__all__ = ["options", "run"]


def options(parser: argparse.ArgumentParser) -> None:
    """Ask for the unit, and over how many sheets."""
    arguments.unit(parser)
    parser.add_argument(
        "--sheets", type=int, default=DRAWS, metavar="N", help=f"so many are drawn ({DRAWS})"
    )


def run(asked: argparse.Namespace) -> int:
    """Print what is known of every question; return 1 if a guard finds a fault."""
    if asked.sheets < SAMPLES:
        raise CourseError(f"sheets must be {SAMPLES} or more, got {asked.sheets}")
    course = Course.at(asked.course)
    text, exercise_set = course.text(asked.unit), course.questions(asked.unit)
    source_notebook(text, exercise_set, course.root / "rigs")
    listed = course.root / "outcomes.toml"
    strange = unknown_outcomes(exercise_set, listed) if listed.is_file() else ()
    found = checked(exercise_set, asked.sheets, strange)
    for line in lines(found):
        print(line)
    return 0 if found.sound else 1

"""``fuelmarks hand-out``: make a notebook for every trainee, each with numbers of his own."""

import argparse

from fuelmarks.classroom.hand_out import hand_out
from fuelmarks.commands.arguments import unit as options
from fuelmarks.commands.saying import near
from fuelmarks.course.course import Course

__all__ = ["options", "run"]


def run(asked: argparse.Namespace) -> int:
    """Make a notebook for every trainee."""
    course = Course.at(asked.course)
    paths = list(hand_out(course, asked.unit))
    print(f"{len(paths)} notebooks in {near(course.root / 'handout')}")
    return 0

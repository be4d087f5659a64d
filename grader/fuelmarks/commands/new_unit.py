"""``fuelmarks new-unit``: write the skeleton of a unit of one's own."""

import argparse

from fuelmarks.authoring.new_unit import new_unit
from fuelmarks.commands.saying import say_wrote
from fuelmarks.course.course import Course

__all__ = ["options", "run"]


def options(parser: argparse.ArgumentParser) -> None:
    """Ask for the name."""
    parser.add_argument("unit", metavar="NN-SLUG", help="such as 20-our-float")


def run(asked: argparse.Namespace) -> int:
    """Write text and questions, and say what comes next."""
    say_wrote(new_unit(Course.at(asked.course), asked.unit))
    print(f"Change both, then: fuelmarks check {asked.unit}; fuelmarks build {asked.unit}")
    return 0

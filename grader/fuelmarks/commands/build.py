"""``fuelmarks build``: make the notebooks of units from their text."""

import argparse

from fuelmarks.authoring.build import build
from fuelmarks.authoring.own_car import NAME as OWN_CAR
from fuelmarks.authoring.own_car import build_own_car
from fuelmarks.commands.saying import near
from fuelmarks.course.course import Course

__all__ = ["options", "run"]


def options(parser: argparse.ArgumentParser) -> None:
    """Ask which units."""
    parser.add_argument("units", nargs="*", metavar="UNIT", help="the units (all)")


def run(asked: argparse.Namespace) -> int:
    """Make the notebooks; the owner's counts as a unit where the course has one."""
    course = Course.at(asked.course)
    own = (OWN_CAR,) if (course.root / OWN_CAR).is_dir() else ()
    for unit in asked.units or (*course.units(), *own):
        made = build_own_car(course) if unit in own else build(course, unit)
        print(f"built {near(made)}")
    return 0

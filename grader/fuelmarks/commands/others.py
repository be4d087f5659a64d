"""What the commands do, all but ``mark``; `fuelmarks.commands.cli` finds each here by its name."""

import argparse
from pathlib import Path

from fuelmarks.authoring.build import build as build_unit
from fuelmarks.authoring.glossary import write_glossary
from fuelmarks.authoring.own_car import NAME as OWN_CAR
from fuelmarks.authoring.own_car import build_own_car
from fuelmarks.book.pages import write_reports
from fuelmarks.classroom.hand_out import collect as collect_unit
from fuelmarks.classroom.hand_out import hand_out as hand_out_unit
from fuelmarks.course.course import Course
from fuelmarks.demo.run import run_demo
from fuelmarks.paper.pack import write_pack
from fuelmarks.paper.printing import print_unit

__all__ = ["build", "collect", "demo", "glossary", "hand_out", "pack", "print_paper", "report"]


def build(asked: argparse.Namespace) -> int:
    """Make the notebooks of units from their text."""
    course = Course.at(asked.course)
    own = (OWN_CAR,) if (course.root / OWN_CAR).is_dir() else ()
    for unit in asked.units or (*course.units(), *own):
        made = build_own_car(course) if unit in own else build_unit(course, unit)
        print(f"built {_near(made)}")
    return 0


def hand_out(asked: argparse.Namespace) -> int:
    """Make a notebook for every trainee."""
    course = Course.at(asked.course)
    paths = list(hand_out_unit(course, asked.unit))
    print(f"{len(paths)} notebooks in {_near(course.root / 'handout')}")
    return 0


def collect(asked: argparse.Namespace) -> int:
    """Take in returned notebooks."""
    course = Course.at(asked.course)
    found = collect_unit(course, asked.unit, asked.returned)
    print(f"{len(found)} notebooks collected")
    for name in found.strange:
        print(f"passed over {name}: fits no trainee in class.csv")
    absent = [one.id for one in course.trainees() if one.id not in found]
    if absent:
        print(f"nothing from {', '.join(absent)}")
    return 1 if found.strange else 0


def report(asked: argparse.Namespace) -> int:
    """Write the pages."""
    for path in write_reports(Course.at(asked.course), asked.unit):
        print(f"wrote {_near(path)}")
    return 0


def print_paper(asked: argparse.Namespace) -> int:
    """Print handout, job sheet or key."""
    for path in print_unit(Course.at(asked.course), asked.unit, asked.sheet, asked.trainee):
        print(f"wrote {_near(path)}")
    return 0


def pack(asked: argparse.Namespace) -> int:
    """Print the instructor's pack."""
    for path in write_pack(Course.at(asked.course)):
        print(f"wrote {_near(path)}")
    return 0


def glossary(asked: argparse.Namespace) -> int:
    """Write the glossary."""
    print(f"wrote {_near(write_glossary(Course.at(asked.course)))}")
    return 0


def demo(asked: argparse.Namespace) -> int:
    """Do all of it with an invented class."""
    return run_demo(Course.at(asked.course), asked.into, asked.trainees)


def _near(path: Path) -> str:
    """Return `path` as one would type it here."""
    here = Path.cwd()
    return str(path.relative_to(here) if path.is_relative_to(here) else path)

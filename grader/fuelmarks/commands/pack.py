"""``fuelmarks pack``: print the instructor's pack."""

import argparse

from fuelmarks.book.slip_table import told_slips
from fuelmarks.book.term import records_of
from fuelmarks.commands.arguments import nothing as options
from fuelmarks.commands.saying import say_wrote
from fuelmarks.course.course import Course
from fuelmarks.paper.pack import write_pack
from fuelmarks.paper.usual_slips import Made

__all__ = ["options", "run"]


def run(asked: argparse.Namespace) -> int:
    """Print term plan, outcomes map, lesson plans and slides."""
    course = Course.at(asked.course)
    say_wrote(write_pack(course, _made(course)))
    return 0


def _made(course: Course) -> dict[str, Made]:
    """Return by unit which slips the class has made so far; none before there is a class."""
    if not (course.root / "class.csv").exists():
        return {}
    return {
        record.unit: {
            (one.question, one.whose, one.slip): (one.times, one.answers)
            for one in told_slips(record)
        }
        for record in records_of(course)
    }

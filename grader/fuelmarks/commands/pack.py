"""``fuelmarks pack``: print the instructor's pack."""

import argparse

from fuelmarks.commands.arguments import nothing as options
from fuelmarks.commands.saying import say_wrote
from fuelmarks.course.course import Course
from fuelmarks.paper.pack import write_pack

__all__ = ["options", "run"]


def run(asked: argparse.Namespace) -> int:
    """Print term plan, outcomes map, lesson plans and slides."""
    say_wrote(write_pack(Course.at(asked.course)))
    return 0

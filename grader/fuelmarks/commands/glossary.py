"""``fuelmarks glossary``: write every new word of the course on one page."""

import argparse

from fuelmarks.authoring.glossary import write_glossary
from fuelmarks.commands.arguments import nothing as options
from fuelmarks.commands.saying import say_wrote
from fuelmarks.course.course import Course

__all__ = ["options", "run"]


def run(asked: argparse.Namespace) -> int:
    """Write the glossary."""
    say_wrote([write_glossary(Course.at(asked.course))])
    return 0

"""``fuelmarks term``: write the term's book and the record of competence over all units."""

import argparse

from fuelmarks.book.term_pages import write_term
from fuelmarks.commands.arguments import nothing as options
from fuelmarks.commands.saying import say_wrote
from fuelmarks.course.course import Course

__all__ = ["options", "run"]


def run(asked: argparse.Namespace) -> int:
    """Write the pages and the tables."""
    say_wrote(write_term(Course.at(asked.course)))
    return 0

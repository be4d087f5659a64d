"""``fuelmarks report``: write the class page, the trainees' pages, the record and the CSV."""

import argparse

from fuelmarks.book.pages import write_reports
from fuelmarks.classroom.sending import send_feedback
from fuelmarks.commands.arguments import released_unit as options
from fuelmarks.commands.left_out import say_who_is_left_out
from fuelmarks.commands.saying import say_sent, say_wrote
from fuelmarks.course.course import Course

__all__ = ["options", "run"]


def run(asked: argparse.Namespace) -> int:
    """Write the pages."""
    course = Course.at(asked.course)
    say_who_is_left_out(course, asked.unit)
    say_wrote(write_reports(course, asked.unit))
    if asked.release:
        return 0 if say_sent(send_feedback(course, asked.unit), "given back") else 1
    return 0

"""``fuelmarks grades``: send the marks of a unit to the learning platform, from a class server."""

import argparse

from fuelmarks.book.class_record import class_record
from fuelmarks.classroom.sending import send_grades
from fuelmarks.commands.arguments import unit as options
from fuelmarks.course.course import Course

__all__ = ["options", "run"]

SENT = ("sent", "sent before")


def run(asked: argparse.Namespace) -> int:
    """Send what is marked; say what became of each; return 1 if somebody's went nowhere."""
    course = Course.at(asked.course)
    course.text(asked.unit)
    record = class_record(course, asked.unit)
    marks = {
        one.trainee.id: {"points": one.points, "out_of": record.out_of, "final": not one.waits}
        for one in record.marked
    }
    told = send_grades(asked.unit, marks)
    for trainee, words in told.items():
        print(f"{trainee}: {words}")
    gone = sum(words.partition(":")[0] in SENT for words in told.values())
    print(f"{gone} with the learning platform, {len(told) - gone} not")
    return 0 if gone == len(told) else 1

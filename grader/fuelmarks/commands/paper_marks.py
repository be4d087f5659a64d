"""``fuelmarks paper-marks``: type in marks for work on paper, question by question."""

import argparse
from datetime import datetime
from pathlib import Path

from fuelmarks.classroom.paper_marks import enter_paper_marks, marks_in_words, marks_on_list
from fuelmarks.commands import arguments
from fuelmarks.course.course import Course, CourseError

__all__ = ["options", "run"]


def options(parser: argparse.ArgumentParser) -> None:
    """Ask for the unit, and for marks as words or as a table."""
    arguments.unit(parser)
    parser.add_argument(
        "--trainee",
        nargs="+",
        default=[],
        metavar=("ID", "QUESTION=POINTS"),
        help="whose marks, and which; QUESTION=- takes one back",
    )
    parser.add_argument("--table", type=Path, metavar="FILE", help="CSV: id, then the questions")
    parser.add_argument("--on", metavar="DATE", default="", help="such as 2026-12-04 (today)")


def run(asked: argparse.Namespace) -> int:
    """Enter the marks, and say what each was before."""
    course = Course.at(asked.course)
    if bool(asked.table) == bool(asked.trainee) or len(asked.trainee) == 1:
        rule = "marks must come as --trainee ID QUESTION=POINTS, or in --table FILE"
        raise CourseError(f"{rule}, got {'both' if asked.table else 'neither'}")
    if asked.table:
        marks = marks_on_list(course, asked.unit, asked.table)
    else:
        marks = marks_in_words(course, asked.unit, asked.trainee[0], asked.trainee[1:])
    for one in enter_paper_marks(course, asked.unit, marks, _day(asked.on)):
        print(one.words)
    return 0


def _day(text: str) -> datetime:
    """Return the day that `text` names, now if it names none."""
    if not text:
        return datetime.now().astimezone()
    try:
        return datetime.fromisoformat(text).astimezone()
    except ValueError:
        raise CourseError(f"date must be like 2026-12-04, got {text!r}") from None

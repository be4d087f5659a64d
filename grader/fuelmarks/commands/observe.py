"""``fuelmarks observe``: enter observed work from a table, or lay down the form for it."""

import argparse
from datetime import datetime
from pathlib import Path

from fuelmarks.classroom.observed import FILE, enter, read_observed, standing
from fuelmarks.classroom.observed_form import form_notebook
from fuelmarks.classroom.observed_table import work_on_list
from fuelmarks.course.course import Course
from fuelmarks.course.notebook import write

__all__ = ["options", "run"]

FORM = "observe.ipynb"


def options(parser: argparse.ArgumentParser) -> None:
    """Ask for a table, or nothing."""
    parser.add_argument(
        "--table",
        type=Path,
        metavar="FILE",
        help="CSV: trainee, outcome, observed on, reading, result, watched by, note, corrects",
    )


def run(asked: argparse.Namespace) -> int:
    """Enter a table, or write the notebook with the form and say how to open it."""
    course = Course.at(asked.course)
    if asked.table:
        return _table(course, asked.table)
    path = course.root / FORM
    write(form_notebook(course.root), path)
    lines = read_observed(course)
    print(f"{FILE} holds {len(lines)} lines, of which {len(standing(lines))} stand.")
    print(f"Open the form with: jupyter lab {path}")
    return 0


def _table(course: Course, path: Path) -> int:
    """Enter the work in a table."""
    rows = work_on_list(path)
    places = [f"{path}, line {line}" for line, _ in rows]
    taken = enter(course, [work for _, work in rows], datetime.now().astimezone(), places)
    for one in taken.new:
        print(f"{one.number}: {one.seen.trainee} {one.seen.outcome}, {one.seen.result}")
    print(f"{len(taken.new)} written down, {taken.known} stood there already.")
    return 0

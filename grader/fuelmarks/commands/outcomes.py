"""``fuelmarks outcomes``: write where each outcome is taught, practised, assessed and observed."""

import argparse

from fuelmarks.book.writing import page, put, table
from fuelmarks.commands.arguments import nothing as options
from fuelmarks.commands.saying import say_wrote
from fuelmarks.course.course import Course
from fuelmarks.paper.outcomes_map import map_table, outcomes_map

__all__ = ["options", "run"]


def run(asked: argparse.Namespace) -> int:
    """Write the page and the table."""
    course = Course.at(asked.course)
    lines, folder = list(outcomes_map(course)), course.root / "reports"
    say_wrote(
        [
            put(folder / "outcomes.html", page("outcomes.html.j2", lines=lines)),
            put(folder / "outcomes.csv", table(map_table(lines))),
        ]
    )
    return 0

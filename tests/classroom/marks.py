"""What marking the small unit leaves in the gradebook and says of each notebook."""

import sqlite3
from collections.abc import Callable, Iterator
from typing import Any, TypeAlias

from fuelmarks.classroom.mark_class import Done
from fuelmarks.course.course import Course

__all__ = ["Marker", "rows", "states"]

Marker: TypeAlias = Callable[..., Iterator[Done]]
ROWS = (
    "select student_id, name, auto_score, needs_manual_grade from grade "
    "join submitted_notebook s on s.id = grade.notebook_id "
    "join submitted_assignment a on a.id = s.assignment_id "
    "join base_cell c on c.id = cell_id order by 1, 2"
)


def rows(course: Course) -> list[tuple[Any, ...]]:
    """Return trainee, cell, points and whether a hand is awaited, in this order."""
    with sqlite3.connect(course.root / "gradebook.db") as book:
        return book.execute(ROWS).fetchall()


def states(running: Iterator[Done]) -> list[str]:
    """Mark to the end, and return what became of each."""
    return [done.state for done in running]

"""What nbgrader's marks on a cell say, told as nbgrader tells it.

nbgrader's own functions are these four; to load them takes a second.
"""

import hashlib

from fuelmarks.course.notebook import NotebookNode

__all__ = ["is_grade", "is_solution", "is_task", "is_untouched"]


def is_grade(cell: NotebookNode) -> bool:
    """Return whether a cell earns points."""
    return _says(cell, "grade")


def is_solution(cell: NotebookNode) -> bool:
    """Return whether an answer stands in a cell."""
    return _says(cell, "solution")


def is_task(cell: NotebookNode) -> bool:
    """Return whether a cell sets a task that is marked by hand."""
    return _says(cell, "task")


def is_untouched(cell: NotebookNode) -> bool:
    """Return whether a cell is as it was handed out, by the checksum that was made then."""
    marks = cell.metadata.nbgrader
    return "checksum" in marks and bool(marks["checksum"] == _checksum(cell))


def _says(cell: NotebookNode, name: str) -> bool:
    return bool(cell.metadata.get("nbgrader", {}).get(name, False))


def _checksum(cell: NotebookNode) -> str:
    """Return nbgrader's fingerprint of a cell: its text, kind, marks, name and points."""
    marks = cell.metadata.nbgrader
    grade, solution = marks.get("grade", False), marks.get("solution", False)
    locked = not solution and (bool(grade) or marks.get("locked", False))
    points = [str(float(marks.points))] if grade else []
    said = (cell.source, cell.cell_type, str(grade), str(solution), str(locked), marks["grade_id"])
    return hashlib.md5("".join((*said, *points)).encode(), usedforsecurity=False).hexdigest()

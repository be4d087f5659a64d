"""The notebook for an owner's car: not marked, and with no trainee's numbers."""

from pathlib import Path

import jupytext

from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.notebook import KERNEL, NotebookNode, new_cell, notebook, write

__all__ = ["NAME", "build_own_car", "own_car_notebook"]

NAME = "own-car"


def build_own_car(course: Course) -> Path:
    """Build the notebook from its text into the release folder and return its path.

    Raises `CourseError` if the text is not there.
    """
    path = course.root / "release" / NAME / f"{NAME}.ipynb"
    made = own_car_notebook(course)
    path.parent.mkdir(parents=True, exist_ok=True)
    write(made, path)
    return path


def own_car_notebook(course: Course) -> NotebookNode:
    """Return the notebook; raise `CourseError` if its text is not there."""
    text = course.root / NAME / f"{NAME}.md"
    if not text.is_file():
        raise CourseError(f"course must hold the owner's notebook, got no file {text}")
    cells = jupytext.reads(text.read_text(encoding="utf-8"), fmt="md:myst").cells
    return notebook(
        [
            new_cell(cell.cell_type, cell.source, name=f"{NAME}-{at:02}")
            for at, cell in enumerate(cells)
            if cell.source.strip()
        ],
        KERNEL,
    )

"""Questions that are added to a unit after the class has answered: nbgrader itself takes none.

A submission that is there already gets a place for the new marks; what it has earned stays.
"""

from collections.abc import Iterable, Mapping
from typing import Any

from nbgrader.api import Comment, Grade, Gradebook, InvalidEntry, MissingEntry, Notebook
from nbgrader.utils import is_grade, is_locked, is_solution

from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.notebook import NotebookNode, grade_id
from fuelmarks.gradebook.opening import in_words, open_gradebook

__all__ = ["add_later_cells"]


@in_words(InvalidEntry)
def add_later_cells(course: Course, unit: str, cells: Iterable[NotebookNode]) -> None:
    """Enter those `cells` of a unit's source that its submissions have no place for yet.

    Raises `CourseError` if one is gone that the class has answered.
    """
    book = open_gradebook(course)
    try:
        notebook = book.find_notebook(unit, unit)
    except MissingEntry:
        return
    else:
        if notebook.submissions:
            named = {grade_id(cell): cell for cell in cells if grade_id(cell)}
            _check_none_gone(unit, notebook, named)
            _add(book, unit, notebook, named)
    finally:
        book.close()


def _check_none_gone(unit: str, notebook: Notebook, named: Mapping[str, NotebookNode]) -> None:
    """Raise `CourseError` if a question is gone that submissions hold."""
    gone = sorted({cell.name for cell in notebook.grade_cells} - set(named))
    if gone:
        raise CourseError(
            f"{unit} must keep the questions that the class was handed out, got no "
            f"{', '.join(name[3:] for name in gone)}; to count them no more, void them"
        )


def _add(book: Gradebook, unit: str, notebook: Notebook, named: Mapping[str, NotebookNode]) -> None:
    """Enter the cells that are new, and a grade or a comment on each for every submission."""
    known = {cell.name for cell in notebook.source_cells}
    for name, cell in named.items():
        if name in known:
            continue
        place = (name, unit, unit)
        kind = cell.cell_type
        if is_grade(cell):
            points = float(cell.metadata.nbgrader.points)
            made = book.add_grade_cell(*place, max_score=points, cell_type=kind)
            _on_each(book, notebook, Grade, made.id)
        if is_solution(cell):
            made = book.add_solution_cell(*place)
            _on_each(book, notebook, Comment, made.id)
        book.add_source_cell(*place, cell_type=kind, source=cell.source, locked=is_locked(cell))
    book.db.commit()


def _on_each(book: Gradebook, notebook: Notebook, kind: type[Any], cell: str) -> None:
    """Add an empty grade or comment to every submission."""
    for submission in notebook.submissions:
        book.db.add(kind(cell_id=cell, notebook=submission))

"""Our own view of nbgrader's tables and cells is held against nbgrader itself."""

import pytest
from fuelmarks.course.notebook import NotebookNode, new_cell
from fuelmarks.gradebook.cell_marks import is_grade, is_solution, is_task, is_untouched
from fuelmarks.gradebook.tables import OF_NBGRADER
from nbgrader import utils
from nbgrader.api import Base
from sqlalchemy import Table
from sqlalchemy.dialects import postgresql, sqlite


@pytest.mark.parametrize("ours", OF_NBGRADER.sorted_tables, ids=lambda table: table.name)
@pytest.mark.parametrize("database", [sqlite, postgresql])
def test_every_column_is_nbgraders(ours: Table, database: object) -> None:
    theirs = Base.metadata.tables[ours.name]
    dialect = database.dialect()  # type: ignore[attr-defined]
    for column in ours.columns:
        other = theirs.columns[column.name]
        assert column.type.python_type is other.type.python_type
        if column.type.python_type is not float:  # of whatever precision
            assert column.type.compile(dialect) == other.type.compile(dialect)


WRITTEN = ("submitted_assignment", "submitted_notebook", "grade", "comment", "student")


@pytest.mark.parametrize("name", WRITTEN)
def test_no_column_that_must_be_filled_is_left_out(name: str) -> None:
    ours = OF_NBGRADER.tables[name].columns.keys()
    left = [one for one in Base.metadata.tables[name].columns if one.name not in ours]
    assert all(one.nullable and one.default is None for one in left)


MARKS = {
    "an answer": {"solution": True},
    "a written question": {"grade": True, "solution": True, "points": 3},
    "a check": {"grade": True, "points": 2, "locked": True},
    "a check worth a half": {"grade": True, "points": 0.5},
    "a locked text": {"locked": True},
    "a task": {"task": True, "points": 1},
    "nothing else": {},
}


@pytest.mark.parametrize("marks", MARKS.values(), ids=MARKS)
@pytest.mark.parametrize("source", ["", "force = 3  # Ω\n"])
def test_marks_say_what_nbgrader_reads_in_them(marks: dict[str, object], source: str) -> None:
    cell = new_cell("code", source, metadata={"nbgrader": {"grade_id": "02-force", **marks}})
    assert is_grade(cell) == bool(utils.is_grade(cell))
    assert is_solution(cell) == bool(utils.is_solution(cell))
    assert is_task(cell) == bool(utils.is_task(cell))
    assert not is_untouched(cell)
    cell.metadata.nbgrader.checksum = utils.compute_checksum(cell)
    assert is_untouched(cell)
    cell.source += " "
    assert not is_untouched(cell)


def test_a_cell_without_marks_says_nothing() -> None:
    cell = NotebookNode(cell_type="code", source="", metadata=NotebookNode())
    assert [is_grade(cell), is_solution(cell), is_task(cell)] == [False] * 3

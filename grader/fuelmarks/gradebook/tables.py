"""nbgrader's tables, as far as marking reads and writes them.

nbgrader's own classes take a second to load and write row by row. What a gradebook must have to
be used here is checked when it is opened (`opening`), so its tables are these.
"""

from sqlalchemy import (
    Boolean,
    Column,
    DateTime,
    Float,
    Interval,
    MetaData,
    String,
    Table,
    Text,
)

__all__ = [
    "ASSIGNMENT",
    "CELL",
    "COMMENT",
    "GRADE",
    "NOTEBOOK",
    "SHEET",
    "SOURCE",
    "STUDENT",
    "SUBMISSION",
]

OF_NBGRADER = MetaData()


def _table(name: str, *columns: Column[object], key: int = 32) -> Table:
    """Return a table with an id of `key` characters."""
    return Table(name, OF_NBGRADER, Column("id", String(key), primary_key=True), *columns)


def _link(name: str, length: int = 32) -> Column[object]:
    """Return a column that holds the id of a row elsewhere."""
    return Column(name, String(length))


ASSIGNMENT = _table("assignment", Column("name", String(128)), Column("duedate", DateTime))
NOTEBOOK = _table("notebook", Column("name", String(128)), _link("assignment_id"))
CELL = _table(
    "base_cell", Column("name", String(128)), Column("type", String(50)), _link("notebook_id")
)
SOURCE = _table(
    "source_cell",
    Column("name", String(128)),
    Column("locked", Boolean),
    Column("source", Text),
    _link("notebook_id"),
)
STUDENT = _table(
    "student",
    Column("first_name", String(128)),
    Column("last_name", String(128)),
    Column("email", String(128)),
    key=128,
)
SUBMISSION = _table(
    "submitted_assignment",
    _link("assignment_id"),
    _link("student_id", 128),
    Column("timestamp", DateTime),
    Column("extension", Interval),
)
SHEET = _table(
    "submitted_notebook",
    _link("assignment_id"),
    _link("notebook_id"),
    Column("flagged", Boolean),
    Column("late_submission_penalty", Float),
)
GRADE = _table(
    "grade",
    _link("notebook_id"),
    _link("cell_id"),
    Column("auto_score", Float),
    Column("manual_score", Float),
    Column("extra_credit", Float),
    Column("needs_manual_grade", Boolean),
)
COMMENT = _table(
    "comment",
    _link("notebook_id"),
    _link("cell_id"),
    Column("auto_comment", Text),
    Column("manual_comment", Text),
)

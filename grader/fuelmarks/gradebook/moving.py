"""Copy a whole gradebook to another database: from a file to a server, back, or as a safe copy.

All or nothing: tables are made and rows copied in one transaction, and read back and compared
before it ends. What lies at the other end already is never touched.
"""

from collections.abc import Mapping
from dataclasses import replace

from sqlalchemy import Connection, Engine, Table, create_engine, insert, inspect, select

from fuelmarks.course.course import Course
from fuelmarks.gradebook.given import GIVEN, TABLES
from fuelmarks.gradebook.hand_marks import ENTERED
from fuelmarks.gradebook.nbgraders import Base
from fuelmarks.gradebook.noted_due import DUE
from fuelmarks.gradebook.opening import (
    GradebookError,
    check_gradebook,
    in_words,
    make_tables,
    place_of,
)

__all__ = ["OWN", "copy_gradebook"]

AT_ONCE = 2000
OWN = (GIVEN, ENTERED, DUE)
"""Our own tables: by name, for `TABLES` knows only those whose module somebody has loaded."""


@in_words()
def copy_gradebook(course: Course, source: str, target: str) -> Mapping[str, int]:
    """Copy the gradebook at the address `source` to `target`; return the rows copied by table.

    Raises `GradebookError` if there is none, if something lies at the target, or if what was read
    back is not what was read.
    """
    if not check_gradebook(replace(course, other_gradebook=source)):
        raise GradebookError(f"{place_of(source)} must hold a gradebook to copy, got none")
    from_engine, to_engine = create_engine(source), create_engine(target)
    try:
        if found := inspect(to_engine).get_table_names():
            rule = f"{place_of(target)} must be an empty database"
            raise GradebookError(f"{rule}, got one with tables ({', '.join(sorted(found)[:3])})")
        return _copied(from_engine, to_engine)
    finally:
        from_engine.dispose()
        to_engine.dispose()


def _copied(source: Engine, target: Engine) -> dict[str, int]:
    """Copy and compare all tables in one transaction."""
    there = set(inspect(source).get_table_names())
    tables = [table for table in (*Base.metadata.sorted_tables, *OWN) if table.name in there]
    known = {table.name for table in tables} | {"alembic_version"}
    if strange := there - known:
        rule = "a gradebook must have nbgrader's tables and ours"
        raise GradebookError(f"{rule}, got {', '.join(sorted(strange))}; nothing was copied")
    with source.connect() as read, target.begin() as write:
        make_tables(write)
        TABLES.create_all(write)
        return {table.name: _copy_table(table, read, write) for table in tables}


def _copy_table(table: Table, read: Connection, write: Connection) -> int:
    """Copy one table; raise `GradebookError` if it reads otherwise afterwards."""
    asked = select(table).order_by(*table.primary_key.columns)
    rows = [dict(row._mapping) for row in read.execute(asked)]
    for start in range(0, len(rows), AT_ONCE):
        write.execute(insert(table), rows[start : start + AT_ONCE])
    again = {tuple(row) for row in write.execute(select(table))}
    if again != {tuple(row.values()) for row in rows} or len(again) != len(rows):
        rule = f"table {table.name} must read back as it was"
        raise GradebookError(f"{rule}, got other rows; nothing was copied")
    return len(rows)

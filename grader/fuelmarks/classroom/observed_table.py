"""Observed work in a table that an instructor keeps, in any order of columns."""

import re
from collections.abc import Mapping
from pathlib import Path

from fuelmarks.classroom.observed import Seen
from fuelmarks.course.spreadsheet import Table, read_table

__all__ = ["COLUMNS", "work_on_list"]

COLUMNS: Mapping[str, tuple[str, ...]] = {
    "trainee": ("trainee", "id", "trainee id", "student", "student id"),
    "outcome": ("outcome", "code"),
    "day": ("observed on", "date", "day", "when"),
    "reading": ("reading", "reading or what was seen", "seen"),
    "result": ("result", "pass or not yet"),
    "watched_by": ("watched by", "who watched", "who", "observer", "assessor"),
    "note": ("note", "notes", "remark", "comment"),
    "corrects": ("corrects", "corrects number"),
}
"""What each column may be called, the plainest name first."""
NEEDED = ("trainee", "outcome", "day", "reading", "result", "watched_by")


def work_on_list(path: Path) -> tuple[tuple[int, Seen], ...]:
    """Return the work in a table, each piece with its line in the file.

    Raises `CourseError` that names file, line, rule and value if it cannot be read as one.
    """
    table = read_table(path)
    if not table.rows:
        raise table.refuse(1, f"the headings must be {_headings()}", "nothing")
    places = _places(table)
    return tuple((line, _work(table, line, row, places)) for line, row in table.body())


def _headings() -> str:
    """Return the plainest heading of every column."""
    return ", ".join(names[0] for names in COLUMNS.values())


def _places(table: Table) -> dict[str, int]:
    """Return in which column each thing stands."""
    line, head = table.rows[0]
    plain = [" ".join(re.findall(r"[a-z]+", heading.lower())) for heading in head]
    found: dict[str, int] = {}
    for column, names in COLUMNS.items():
        at = [place for place, heading in enumerate(plain) if heading in names]
        if len(at) > 1:
            raise table.refuse(line, f"one column must hold {names[0]}", ", ".join(head))
        if at:
            found[column] = at[0]
        elif column in NEEDED:
            rule = f"there must be a column {names[0]}; the headings are {_headings()}"
            raise table.refuse(line, rule, ", ".join(head))
    return found


def _work(table: Table, line: int, row: tuple[str, ...], places: Mapping[str, int]) -> Seen:
    """Return the work in one row; its words are judged later, with all the others."""
    cells = {name: row[at] if at < len(row) else "" for name, at in places.items()}
    corrects = cells.pop("corrects", "")
    if corrects and not corrects.isdecimal():
        raise table.refuse(line, "corrects must be the number of a line", corrects)
    cells["result"] = cells["result"].lower()
    return Seen(**cells, corrects=int(corrects or 0))

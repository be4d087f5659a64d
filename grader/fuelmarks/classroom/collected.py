"""The table of a collection: who, which attempt, when, on time or late, and what became of it."""

import unicodedata
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Literal

from fuelmarks.gradebook.lateness import lateness

__all__ = ["Collected", "Outcome", "Row", "collection_table", "moment"]

Outcome = Literal[
    "kept",
    "older",
    "damaged",
    "kept before",
    "untouched",
    "another's",
    "another unit",
    "not in the class",
    "other numbers",
    "nobody's",
    "unreadable",
]
FINE: tuple[Outcome, ...] = ("kept", "older", "kept before", "untouched")
HEADS = ("trainee", "attempt", "handed in", "on time", "what became of it", "file")


@dataclass(frozen=True)
class Row:
    """What became of one file; no `late`: there is no due date, or nothing was kept."""

    outcome: Outcome
    words: str
    file: str
    trainee: str = ""
    attempt: int = 0
    handed_in: datetime | None = None
    late: timedelta | None = None


@dataclass(frozen=True)
class Collected:
    """All rows, files that are no notebooks, and trainees of whom no attempt is kept."""

    rows: tuple[Row, ...]
    left: tuple[str, ...] = ()
    absent: tuple[str, ...] = ()

    @property
    def kept(self) -> tuple[Row, ...]:
        """Return the rows of the attempts that are new."""
        return tuple(row for row in self.rows if row.outcome in ("kept", "older", "damaged"))

    @property
    def fine(self) -> bool:
        """Say whether no row wants looking into."""
        return all(row.outcome in FINE for row in self.rows)

    @property
    def wrong_key(self) -> bool:
        """Say whether not one notebook holds numbers that the term's key draws."""
        outcomes = {row.outcome for row in self.rows}
        return "other numbers" in outcomes and not outcomes & set(FINE)


def collection_table(found: Collected) -> str:
    """Return the table as text."""
    lines = [HEADS, *(_cells(row) for row in found.rows)]
    widths = [max(_width(line[at]) for line in lines) for at in range(len(HEADS) - 1)]
    return "\n".join(_line(line, widths) for line in lines)


def moment(when: datetime | None) -> str:
    """Return a moment in this computer's time, to the minute."""
    return f"{when.astimezone():%Y-%m-%d %H:%M}" if when else ""


def _cells(row: Row) -> tuple[str, ...]:
    """Return a row as texts."""
    attempt = str(row.attempt) if row.attempt else ""
    when, late = moment(row.handed_in), lateness(row.late)
    return (row.trainee or "?", attempt, when, late, row.words, row.file)


def _line(cells: Sequence[str], widths: Iterable[int]) -> str:
    """Return one line of the table; the last column is as wide as it is."""
    set_out = [
        cell + " " * (wide - _width(cell)) for cell, wide in zip(cells, widths, strict=False)
    ]
    return "  ".join([*set_out, cells[-1]]).rstrip()


def _width(text: str) -> int:
    """Return how many places `text` takes on a terminal."""
    wide = sum(unicodedata.east_asian_width(sign) in "WF" for sign in text)
    return len(text) + wide - sum(unicodedata.combining(sign) > 0 for sign in text)

"""Marks that a person gave, and how: by ticks on the page for marking by hand, or on paper.

nbgrader's gradebook holds the points and the comment. What it has no place for stands in a table
of our own beside: which items of the rubric were ticked, when, and whether the work was on paper.
"""

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any, Literal, TypeAlias, get_args

from sqlalchemy import Column, DateTime, Float, MetaData, String, Table, delete, insert, select

__all__ = ["TABLES", "Given", "Tick", "Way", "forget_given", "given_to", "keep_given"]

Way: TypeAlias = Literal["page", "paper"]
TABLES = MetaData()
GIVEN = Table(
    "fuelmarks_given",
    TABLES,
    Column("grade_id", String(32), primary_key=True),
    Column("way", String(8), nullable=False),
    Column("points", Float),
    Column("ticks", String, nullable=False),
    Column("moment", DateTime, nullable=False),
)


@dataclass(frozen=True)
class Tick:
    """One item of a rubric, and whether the answer has it."""

    points: float
    words: str
    ticked: bool


@dataclass(frozen=True)
class Given:
    """A mark that a person gave: `way` says where, `ticks` for what, `when` (UTC)."""

    way: Way
    points: float
    when: datetime
    ticks: tuple[Tick, ...] = ()


def keep_given(session: Any, grade_id: str, given: Given) -> None:
    """Keep how a mark was given, in the transaction of `session`."""
    forget_given(session, grade_id)
    ticks = json.dumps([[one.points, one.words, one.ticked] for one in given.ticks])
    row = {"grade_id": grade_id, "way": given.way, "points": given.points, "ticks": ticks}
    moment = given.when.astimezone(UTC).replace(tzinfo=None)
    session.execute(insert(GIVEN).values(**row, moment=moment))


def forget_given(session: Any, grade_id: str) -> None:
    """Take back how a mark was given."""
    session.execute(delete(GIVEN).where(GIVEN.c.grade_id == grade_id))


def given_to(session: Any, grades: Iterable[Any]) -> Mapping[str, Given]:
    """Return by name of the grade how its mark was given, as long as it is still that mark."""
    rows = {row.grade_id: row for row in session.execute(select(GIVEN))}
    return {
        grade.name: _read(rows[grade.id])
        for grade in grades
        if grade.id in rows and grade.manual_score == rows[grade.id].points
    }


def _read(row: Any) -> Given:
    """Return one row as what it says."""
    way = next(one for one in get_args(Way) if one == row.way)
    ticks = (Tick(float(p), str(words), bool(t)) for p, words, t in json.loads(row.ticks))
    return Given(way, float(row.points), row.moment.replace(tzinfo=UTC), tuple(ticks))

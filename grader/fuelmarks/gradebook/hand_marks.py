"""A mark given by hand belongs to the text it was given for.

The gradebook has no place for what a marked answer said, so a table of our own beside nbgrader's
keeps its digest. When another text is entered, the old mark is taken back and the answer waits.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Column, Engine, String, Table, delete, insert, select

from fuelmarks.gradebook.given import TABLES, forget_given

__all__ = ["TakenBack", "add_tables", "digest_of", "keep_digests", "take_back"]

ENTERED = Table(
    "fuelmarks_entered",
    TABLES,
    Column("grade_id", String(32), primary_key=True),
    Column("digest", String(64), nullable=False),
)


@dataclass(frozen=True)
class TakenBack:
    """A mark and a comment given by hand that no longer count, since the text is another."""

    points: float | None
    comment: str


def add_tables(engine: Engine) -> None:
    """Make our own tables in a gradebook that has none yet."""
    TABLES.create_all(engine)


def digest_of(session: Any, grade_id: str) -> str:
    """Return the digest of the text that is entered for a grade, or nothing."""
    return session.scalar(select(ENTERED.c.digest).where(ENTERED.c.grade_id == grade_id)) or ""


def keep_digests(session: Any, digests: Mapping[str, str]) -> None:
    """Note by grade the digest of the text that is entered for it."""
    if digests:
        session.execute(delete(ENTERED).where(ENTERED.c.grade_id.in_(digests)))
        rows = [{"grade_id": one, "digest": digest} for one, digest in digests.items()]
        session.execute(insert(ENTERED), rows)


def take_back(session: Any, grade: Any, comment: Any, before: str, digest: str) -> TakenBack | None:
    """Take back what was given by hand if the text entered for `grade` is another than `before`.

    `grade` and `comment` (which may be None) are rows, nbgrader's or ours. Returns what was taken
    back, if anything. All happens in the transaction of `session`.
    """
    said = comment.manual_comment if comment is not None else None
    if not before or before == digest or (grade.manual_score is None and not said):
        return None
    taken = TakenBack(grade.manual_score, said or "")
    forget_given(session, grade.id)
    grade.manual_score = None
    if comment is not None:
        comment.manual_comment = None
    return taken

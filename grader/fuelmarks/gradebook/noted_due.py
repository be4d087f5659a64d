"""Which due date of a unit in the gradebook came from term.toml, and not from nbgrader itself.

A date that is taken out of term.toml is taken out of the gradebook too; one that somebody has set
with nbgrader stays.
"""

from datetime import datetime
from typing import Any

from sqlalchemy import Column, String, Table, delete, insert, select

from fuelmarks.gradebook.given import TABLES

__all__ = ["forget", "is_ours", "note"]

DUE = Table(
    "fuelmarks_due",
    TABLES,
    Column("unit", String(80), primary_key=True),
    Column("due", String(40), nullable=False),
)


def note(session: Any, unit: str, due: datetime) -> None:
    """Note the date that term.toml gives a unit, in UTC."""
    forget(session, unit)
    session.execute(insert(DUE).values(unit=unit, due=due.isoformat()))


def forget(session: Any, unit: str) -> None:
    """Note that term.toml gives a unit no date."""
    session.execute(delete(DUE).where(DUE.c.unit == unit))


def is_ours(session: Any, unit: str, due: datetime | None) -> bool:
    """Return whether the date in the gradebook is the one that was noted last."""
    noted = session.scalar(select(DUE.c.due).where(DUE.c.unit == unit))
    return due is not None and due.isoformat() == noted

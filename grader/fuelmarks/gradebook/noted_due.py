"""Which due date of a unit in the gradebook came from term.toml, and not from nbgrader itself.

A date that is taken out of term.toml is taken out of the gradebook too; one that somebody has set
with nbgrader stays.
"""

from datetime import UTC, datetime, timedelta
from typing import Any

from sqlalchemy import Column, String, Table, delete, insert, select, update

from fuelmarks.course.term import Term
from fuelmarks.gradebook.given import TABLES
from fuelmarks.gradebook.tables import ASSIGNMENT, SUBMISSION

__all__ = ["due_in", "extension", "is_ours", "settle_due"]

DUE = Table(
    "fuelmarks_due",
    TABLES,
    Column("unit", String(80), primary_key=True),
    Column("due", String(40), nullable=False),
)


def due_in(session: Any, unit: str) -> datetime | None:
    """Return until when `unit` is due as the gradebook has it (UTC, without saying so)."""
    found: datetime | None = session.scalar(
        select(ASSIGNMENT.c.duedate).where(ASSIGNMENT.c.name == unit)
    )
    return found


def settle_due(session: Any, term: Term, unit: str) -> datetime | None:
    """Enter the due date of term.toml, if it has one; return the one that holds (UTC).

    One that was entered from there before and has been taken out since is taken out here too,
    with everybody's extension.
    """
    held, due = due_in(session, unit), term.due.get(unit)
    if due is None:
        if not is_ours(session, unit, held):
            return held
        _take_out(session, unit)
        return None
    wanted = _utc(due)
    if wanted != held:
        _set_due(session, unit, wanted)
    if not is_ours(session, unit, wanted):
        _forget(session, unit)
        session.execute(insert(DUE).values(unit=unit, due=wanted.isoformat()))
    return wanted


def extension(term: Term, unit: str, trainee: str) -> timedelta | None:
    """Return the time that term.toml gives `trainee` over the others; None if it gives none."""
    due, own = term.due.get(unit), term.due_for(unit, trainee)
    return _utc(own) - _utc(due) if own and due and own != due else None


def is_ours(session: Any, unit: str, due: datetime | None) -> bool:
    """Return whether the date in the gradebook is the one that was noted last."""
    noted = session.scalar(select(DUE.c.due).where(DUE.c.unit == unit))
    return due is not None and due.isoformat() == noted


def _take_out(session: Any, unit: str) -> None:
    """Take out a date that came from term.toml, for all."""
    asked = select(ASSIGNMENT.c.id).where(ASSIGNMENT.c.name == unit).scalar_subquery()
    session.execute(
        update(SUBMISSION).where(SUBMISSION.c.assignment_id == asked).values(extension=None)
    )
    _set_due(session, unit, None)
    _forget(session, unit)


def _set_due(session: Any, unit: str, due: datetime | None) -> None:
    session.execute(update(ASSIGNMENT).where(ASSIGNMENT.c.name == unit).values(duedate=due))


def _forget(session: Any, unit: str) -> None:
    session.execute(delete(DUE).where(DUE.c.unit == unit))


def _utc(when: datetime) -> datetime:
    """Return a moment as nbgrader keeps it: in UTC, without saying so."""
    return when.astimezone(UTC).replace(tzinfo=None)

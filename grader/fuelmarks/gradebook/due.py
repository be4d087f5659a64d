"""Until when a unit may be handed in, as term.toml or else nbgrader says."""

from collections.abc import Iterable
from datetime import datetime
from pathlib import Path

from fuelmarks.course.course import Course

__all__ = ["due_dates"]

FILE = "sqlite:///"


def due_dates(course: Course, unit: str, trainees: Iterable[str]) -> dict[str, datetime | None]:
    """Return until when each of `trainees` may hand in `unit`; None if no date is set anywhere."""
    term = course.term
    own = {one: term.due_for(unit, one) for one in trainees}
    if all(own.values()) or not has_gradebook(course.gradebook):
        return own
    from fuelmarks.gradebook.entered import noted_due_date  # noqa: PLC0415 - takes a second to load

    noted = noted_due_date(course, unit)
    return {one: when or noted for one, when in own.items()}


def has_gradebook(address: str) -> bool:
    """Return whether there may be a gradebook at `address`: a file can be looked for."""
    return not address.startswith(FILE) or Path(address.removeprefix(FILE)).exists()

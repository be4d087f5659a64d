"""Until when a unit may be handed in, as term.toml or else nbgrader says."""

from collections.abc import Iterable
from datetime import datetime

from fuelmarks.course.course import Course

__all__ = ["due_dates"]


def due_dates(course: Course, unit: str, trainees: Iterable[str]) -> dict[str, datetime | None]:
    """Return until when each of `trainees` may hand in `unit`; None if no date is set anywhere."""
    term = course.term
    own = {one: term.due_for(unit, one) for one in trainees}
    if all(own.values()) or not course.has_gradebook:
        return own
    from fuelmarks.gradebook.entered import noted_due_date  # noqa: PLC0415 - takes a second to load

    noted = noted_due_date(course, unit)
    return {one: when or noted for one, when in own.items()}

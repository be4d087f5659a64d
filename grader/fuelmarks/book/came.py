"""When a trainee's work came, how late that was, which attempt it is, and whether one waits."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from fuelmarks.classroom.attempts import attempts, counting
from fuelmarks.classroom.collected import moment
from fuelmarks.course.course import Course
from fuelmarks.course.notebook import NotebookNode
from fuelmarks.gradebook.entered import Entered
from fuelmarks.gradebook.lateness import lateness

__all__ = ["Came", "came"]


@dataclass(frozen=True)
class Came:
    """When work came; no `late`: there is no due date. Attempt 0: it was put there otherwise.

    `waits` is the number of a newer attempt that is not marked yet, or 0.
    """

    handed_in: datetime | None = None
    late: timedelta | None = None
    attempt: int = 0
    kept: int = 0
    waits: int = 0

    @property
    def when(self) -> str:
        """Return when it came, in this computer's time."""
        return moment(self.handed_in)

    @property
    def lateness(self) -> str:
        """Return ``on time``, how late it was, or nothing where no date is set."""
        return lateness(self.late)

    @property
    def is_late(self) -> bool:
        """Say whether it came late."""
        return self.late is not None and self.late > timedelta(0)


def came(
    course: Course,
    unit: str,
    trainee: str,
    book: Entered | None = None,
    marked: NotebookNode | None = None,
) -> Came:
    """Return when the work of `trainee` came: what is marked, or else what is kept."""
    kept = attempts(course, unit, trainee)
    counts = counting(kept)
    if book is None or marked is None:
        return Came(counts.handed_in if counts else None, kept=len(kept))
    attempt = int(marked.metadata.get("fuelmarks", {}).get("attempt", 0))
    waits = counts.number if counts and counts.number != attempt else 0
    return Came(book.handed_in, book.late, attempt, len(kept), waits)

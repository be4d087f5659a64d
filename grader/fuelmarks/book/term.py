"""The term's book: what every trainee has by now in every unit, and what is still to come."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fuelmarks.book.class_record import class_record
from fuelmarks.book.record import ClassRecord, Entry
from fuelmarks.course.course import Course, CourseError, Trainee

__all__ = ["Group", "Line", "TermBook", "records_of", "term_book"]


@dataclass(frozen=True)
class Line:
    """One trainee's entries, one for each unit of the book."""

    entries: tuple[Entry, ...]

    @property
    def trainee(self) -> Trainee:
        """Return whose line it is."""
        return self.entries[0].trainee

    @property
    def points(self) -> float:
        """Return the points so far."""
        return sum(entry.points for entry in self.entries)

    @property
    def out_of(self) -> float:
        """Return the points that could be earned where anything is marked."""
        return sum(entry.out_of for entry in self.entries)

    @property
    def share(self) -> float | None:
        """Return the share of the points, of what is marked; None: nothing is."""
        return self.points / self.out_of if self.out_of else None

    @property
    def missing(self) -> int:
        """Return in how many units nothing was handed in."""
        return sum(entry.missing for entry in self.entries)

    @property
    def late(self) -> int:
        """Return how many units came late."""
        return sum(entry.came.is_late for entry in self.entries)

    @property
    def waiting(self) -> int:
        """Return how many answers still wait to be marked by hand."""
        return sum(row.points is None for entry in self.entries for row in entry.rows)

    @property
    def retakes(self) -> int:
        """Return how many attempts there were beyond the first of each unit."""
        return sum(max(0, entry.came.kept - 1) for entry in self.entries)


@dataclass(frozen=True)
class Group:
    """The lines of one group of the class, and what they have in the mean."""

    name: str
    lines: tuple[Line, ...]

    @property
    def share(self) -> float | None:
        """Return the mean share of those who have any mark."""
        return _mean([line.share for line in self.lines])

    def share_in(self, unit: int) -> float | None:
        """Return the mean share in the unit at that place of the book."""
        return _mean([line.entries[unit].share for line in self.lines])


@dataclass(frozen=True)
class TermBook:
    """The records of all units in which anything has come in, and the class by groups."""

    records: tuple[ClassRecord, ...]
    groups: tuple[Group, ...]

    @property
    def lines(self) -> tuple[Line, ...]:
        """Return everybody's line in the order of the class list."""
        return tuple(Line(entries) for entries in _by_trainee(self.records))


def records_of(course: Course) -> Iterator[ClassRecord]:
    """Yield the record of each unit that is built and in which anything has come in."""
    for unit in course.units():
        if course.notebook("release", unit).exists():
            record = class_record(course, unit)
            if not all(entry.missing for entry in record.entries):
                yield record


def term_book(course: Course) -> TermBook:
    """Return the book of the term; raise `CourseError` if nothing has come in yet."""
    records = tuple(records_of(course))
    if not records:
        raise CourseError("a unit must be collected or marked before the term, got none")
    lines = [Line(entries) for entries in _by_trainee(records)]
    names = dict.fromkeys(line.trainee.group for line in lines)
    groups = (
        Group(name, tuple(line for line in lines if line.trainee.group == name)) for name in names
    )
    return TermBook(records, tuple(groups))


def _by_trainee(records: Sequence[ClassRecord]) -> Iterator[tuple[Entry, ...]]:
    """Yield everybody's entries in all `records`."""
    return zip(*(record.entries for record in records), strict=True)


def _mean(shares: Sequence[float | None]) -> float | None:
    """Return the mean of what is known, None if nothing is."""
    known = [share for share in shares if share is not None]
    return sum(known) / len(known) if known else None

"""The record of competence: what each trainee can do, and on what evidence of which day it rests.

The share of an outcome of knowing is that of the points earned in the questions that ask for it,
as far as they are marked. A written answer is evidence too, and stands with the ticks of its
rubric. An outcome of doing is certified by work that was watched, whatever was calculated.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Literal, TypeAlias

from fuelmarks.book.doing import Doing, doings
from fuelmarks.book.record import ClassRecord, Entry, Row
from fuelmarks.classroom.observed import Observation
from fuelmarks.course.course import Trainee
from fuelmarks.course.outcomes import Outcome, in_order

__all__ = ["Competence", "Evidence", "Standing", "Written", "competences"]

How: TypeAlias = Literal["in the notebook", "on paper", "changed by hand"]


@dataclass(frozen=True)
class Evidence:
    """One question that counts for an outcome: what it earned, how, and when."""

    unit: str
    title: str
    points: float
    out_of: float
    how: How
    when: datetime | None

    @property
    def day(self) -> str:
        """Return the day in this computer's time, nothing if it was not noted."""
        return f"{self.when.astimezone():%Y-%m-%d}" if self.when else ""


@dataclass(frozen=True)
class Standing:
    """How far a trainee has got with one outcome, and what shows it."""

    outcome: Outcome
    evidence: tuple[Evidence, ...]

    @property
    def share(self) -> float | None:
        """Return the share of the points; None: there is no evidence."""
        out_of = sum(one.out_of for one in self.evidence)
        return sum(one.points for one in self.evidence) / out_of if out_of else None

    @property
    def last(self) -> str:
        """Return the day of the newest evidence."""
        return max((one.day for one in self.evidence), default="")


@dataclass(frozen=True)
class Written:
    """A written answer, and its mark."""

    unit: str
    row: Row
    handed_in: datetime | None

    @property
    def day(self) -> str:
        """Return the day on which it was handed in, or marked if it was written on paper."""
        when = self.row.given.when if self.handed_in is None and self.row.given else self.handed_in
        return f"{when.astimezone():%Y-%m-%d}" if when else ""

    @property
    def marked(self) -> str:
        """Return the day on which a person marked it, if that was noted."""
        return f"{self.row.given.when.astimezone():%Y-%m-%d}" if self.row.given else ""


@dataclass(frozen=True)
class Competence:
    """The whole record of one trainee."""

    trainee: Trainee
    standings: tuple[Standing, ...]
    written: tuple[Written, ...]
    doing: tuple[Doing, ...] = ()

    def standing(self, code: str) -> Standing | None:
        """Return how far the trainee has got with outcome `code`, None if nothing shows it."""
        return next((one for one in self.standings if one.outcome.code == code), None)


def competences(
    records: Sequence[ClassRecord],
    outcomes: Mapping[str, Outcome],
    observed: Sequence[Observation] = (),
) -> list[Competence]:
    """Return the record of each trainee over all `records`, with the work that was `observed`."""
    everyone = zip(*(record.entries for record in records), strict=True)
    return [_of_one(records, entries, outcomes, observed) for entries in everyone]


def _of_one(
    records: Sequence[ClassRecord],
    entries: Sequence[Entry],
    outcomes: Mapping[str, Outcome],
    observed: Sequence[Observation],
) -> Competence:
    """Return the record of one trainee."""
    found: dict[str, list[Evidence]] = {}
    written: list[Written] = []
    for record, entry in zip(records, entries, strict=True):
        for row in entry.rows:
            if row.written or (row.question.by_hand and row.given):
                written.append(Written(record.title, row, entry.came.handed_in))
            if row.points is not None and row.question.out_of:
                for code in row.question.outcomes:
                    found.setdefault(code, []).append(_evidence(record, entry, row))
    asked = [one for one in in_order(found, outcomes) if not one.watched]
    standings = tuple(Standing(one, tuple(found[one.code])) for one in asked)
    trainee = entries[0].trainee
    done = doings(trainee.id, observed, outcomes)
    return Competence(trainee, standings, tuple(written), done)


def _evidence(record: ClassRecord, entry: Entry, row: Row) -> Evidence:
    """Return what one marked question shows."""
    how: How = "in the notebook"
    when = entry.came.handed_in
    if row.on_paper and row.given:
        how, when = "on paper", row.given.when
    elif row.changed:
        how = "changed by hand"
    points = row.points or 0.0
    return Evidence(record.unit, row.question.title, points, row.question.out_of, how, when)

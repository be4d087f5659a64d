"""Marks from answers: a pure function, run where no trainee's code ever runs."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from fuelmarks.exercises import ExerciseSet

__all__ = ["Mark", "Marks", "mark"]


@dataclass(frozen=True)
class Mark:
    """What one answer earned, and why.

    `verdict` is one of right, follow-through, slip:<name>, wrong, implausible, wrong-dimension,
    no-unit, not-a-number, blank, missing. `comment` never holds the answer; `study_comment` may.
    Points come in quarters, so that sums are exact.
    """

    exercise: str
    points: float
    out_of: int
    verdict: str
    comment: str
    study_comment: str


@dataclass(frozen=True)
class Marks:
    """The marks of one trainee's sheet, in the order asked."""

    unit: str
    marks: tuple[Mark, ...]

    @property
    def points(self) -> float:
        """Return the points earned."""
        return sum(one.points for one in self.marks)

    @property
    def out_of(self) -> int:
        """Return the points that could be earned."""
        return sum(one.out_of for one in self.marks)

    def __getitem__(self, exercise: str) -> Mark:
        """Return the mark for `exercise`; raise `KeyError` if there is none."""
        return {one.exercise: one for one in self.marks}[exercise]


def mark(
    exercise_set: ExerciseSet,
    seed: int,
    records: Mapping[str, Mapping[str, Any]],
    faults: Mapping[str, str] | None = None,
) -> Marks:
    """Mark `records` (by exercise id) against the sheet that `seed` draws.

    `faults` may say, by exercise id, why no record came: ``timeout``, ``NameError``.
    """
    raise NotImplementedError

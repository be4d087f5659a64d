"""One question on one sheet, and which of the trainee's earlier values may be carried into it.

An earlier value is carried on if it is right, or if it is believable for its own question: within
a tenth of the lowest and ten times the highest that is expected there. What comes of it has to be
believable as much. Otherwise anybody could write next to nothing everywhere and be right from the
second step on.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from fuelcircuits.errors import CircuitError

from fuelmarks.questions import Exercise, ExerciseSet, Formula, Sheet
from fuelmarks.questions.frame.drawing import to_si

__all__ = ["Case", "Own", "believable"]

ASTRAY = 10.0
"""How many times below the lowest or above the highest a carried value may lie."""


class Own(NamedTuple):
    """The trainee's own value of an earlier step, and whether it was right."""

    value: float
    right: bool


@dataclass(frozen=True)
class Case:
    """One question on one sheet; `own` are the trainee's values of the questions before."""

    exercise_set: ExerciseSet
    exercise: Exercise
    sheet: Sheet
    own: Mapping[str, Own]

    @property
    def right(self) -> float:
        """Return the right answer (SI)."""
        return self.sheet.answers[self.exercise.id]

    @cached_property
    def wrong(self) -> tuple[str, ...]:
        """The earlier questions that this one follows from, and whose answers were wrong."""
        follows = self.exercise.follows
        return tuple(name for name in follows if name in self.own and not self.own[name].right)

    @cached_property
    def dropped(self) -> tuple[str, ...]:
        """Those of them whose values are too far out to be carried on."""
        return tuple(
            name
            for name in self.wrong
            if not believable(self.exercise_set[name], self.own[name].value, ASTRAY)
        )

    @cached_property
    def earlier(self) -> Mapping[str, float]:
        """The earlier answers to work with: the trainee's own where they may be carried on."""
        own = any(name in self.own for name in self.exercise.follows)
        return dict(self._values(self.dropped)) if own else self.sheet.answers

    @cached_property
    def worked_from(self) -> tuple[Mapping[str, float], ...]:
        """The earlier answers that a slip may have been worked from: the right ones, and these."""
        answers = self.sheet.answers
        return (answers,) if self.earlier is answers else (answers, self.earlier)

    @cached_property
    def carried(self) -> float | None:
        """What the reference makes of them; None if that is not to be believed, or no number."""
        result = self.worked(self.exercise.reference, self.earlier)
        fits = result is not None and believable(self.exercise, result, ASTRAY)
        return result if fits or not self.wrong else None

    def from_all(self) -> float | None:
        """Return what the reference makes of the trainee's values, none of them left out."""
        return self.worked(self.exercise.reference, dict(self._values(())))

    def worked(self, formula: Formula, earlier: Mapping[str, float]) -> float | None:
        """Return a formula's result, or None where these values make none."""
        try:
            return float(formula(self.sheet.givens, earlier))
        except (CircuitError, ArithmeticError, TypeError, ValueError):
            return None

    def _values(self, without: tuple[str, ...]) -> Iterator[tuple[str, float]]:
        """Yield every earlier answer, the trainee's own in the place of the sheet's."""
        yield from self.sheet.answers.items()
        yield from ((name, one.value) for name, one in self.own.items() if name not in without)


def believable(exercise: Exercise, value: float, astray: float = 1.0) -> bool:
    """Return whether `value` (SI) is within what is expected, or so many times off its ends."""
    low, high = (to_si(bound, exercise.unit) for bound in (exercise.low, exercise.high))
    least = low / astray if low > 0 else low * astray
    most = high * astray if high > 0 else high / astray
    return least <= value <= most

"""The list of what trainees do instead, and what marking makes of each entry over many draws."""

import tomllib
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from fuelmarks.formula.grammar import read
from fuelmarks.marking.carrying import Case
from fuelmarks.marking.verdicts import Finding, judge
from fuelmarks.marking.written import of_number
from fuelmarks.questions import Exercise, ExerciseSet, Sheet, draw, load
from fuelmarks.questions.frame.drawing import from_si, to_si

FIGURES = 4
"""Figures with which the wrong answers are written."""


@dataclass(frozen=True)
class Habit:
    """What is done instead in one question, in words and as the steps that differ."""

    unit: str
    question: str
    words: str
    steps: str
    told: str
    """What is told on most sheets; see the head of the list."""

    @property
    def exercise_set(self) -> ExerciseSet:
        return load(self.unit)

    @property
    def exercise(self) -> Exercise:
        return self.exercise_set[self.question]

    def found(self, seed: int, figures: int = FIGURES) -> Finding | None:
        """Return what marking says to it on one sheet; None where it makes no number."""
        sheet = sheet_of(self.unit, seed)
        method = self.exercise.method
        assert method is not None
        wrong = method.instead(read(self.steps.replace(";", "\n"), frozenset(method.tables)))
        try:
            value = wrong(sheet.givens, sheet.answers)
        except (ArithmeticError, ValueError):
            return None
        return said(self.exercise_set, self.exercise, sheet, value, figures)

    def usual(self, draws: int, figures: int = FIGURES) -> Finding:
        """Return what marking says on most of the sheets."""
        found = [one for seed in range(draws) if (one := self.found(seed, figures))]
        verdict, _ = Counter(one.verdict for one in found).most_common(1)[0]
        return next(one for one in found if one.verdict == verdict)


@cache
def sheet_of(unit: str, seed: int) -> Sheet:
    """Return a sheet of a unit."""
    return draw(load(unit), seed)


def said(
    exercise_set: ExerciseSet, exercise: Exercise, sheet: Sheet, value: float, figures: int
) -> Finding:
    """Return what marking says to `value` (SI), written in the question's unit."""
    written = float(f"{from_si(value, exercise.unit):.{figures}g}")
    case = Case(exercise_set, exercise, sheet, {})
    return judge(case, to_si(written, exercise.unit), of_number(written))


def habits() -> Iterator[Habit]:
    """Yield the whole list."""
    text = Path(__file__).with_name("habits.toml").read_text(encoding="utf-8")
    for place, done in tomllib.loads(text).items():
        unit, _, question = place.partition("/")
        for words, (steps, told) in done.items():
            yield Habit(unit, question, words, steps, told)

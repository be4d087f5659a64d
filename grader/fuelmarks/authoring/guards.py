"""Guards of a question: what its author should know before anybody sees it, in sentences.

The rounding guard proves that a right answer, rounded as it was promised to be enough, is right.
The rival guard looks for likely slips that pass for the right answer. The range guard says where
the expected range is too narrow to tell slips apart.
"""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from fuelmarks.formula.functions import CONSTANTS
from fuelmarks.formula.method import Method
from fuelmarks.formula.value import Working, node_working
from fuelmarks.questions import Exercise, ExerciseSet, Sheet
from fuelmarks.questions.frame.drawing import from_si, last_figure, margin, to_si
from fuelmarks.questions.frame.promise import NUMBERS
from fuelmarks.slips.rivals import Rival, rivals_of

__all__ = ["Remark", "remarks"]

OFTEN = 0.1
"""Share of the sheets from which a rival is a fault."""
WIDE = 1.0
"""Natural logarithm of the highest over the lowest from which slips can be told apart."""
MOST = 3
"""Sheets that are named as examples."""
Steps: TypeAlias = Sequence[tuple[str, Working]]
"""The steps of a formula, by name, each ready to be worked out."""


@dataclass(frozen=True)
class Remark:
    """What a guard found in a question; a fault should be mended before a sheet is handed out."""

    question: str
    words: str
    fault: bool


def remarks(exercise_set: ExerciseSet, sheets: Sequence[Sheet]) -> Iterator[Remark]:
    """Yield what the guards find on these sheets, question by question."""
    for exercise in exercise_set:
        if exercise.form != "value":
            continue
        yield from _rounding(exercise_set, exercise, sheets)
        yield from _rivals(exercise_set, exercise, sheets)
        yield from _range(exercise)


def _rounding(
    exercise_set: ExerciseSet, exercise: Exercise, sheets: Sequence[Sheet]
) -> Iterator[Remark]:
    """Yield a fault if an answer worked with as many figures as promised can be refused."""
    method = exercise.method
    if method is None:
        return
    steps = [(step.name, node_working(step.node, method.tables)) for step in method.formula.steps]
    refused = [one.seed for one in sheets if _refused(exercise_set, exercise, method, steps, one)]
    if refused:
        promise = NUMBERS.get(exercise.figures, f"{exercise.figures} figures are").lower()
        yield Remark(
            exercise.id,
            f"it says that {promise} enough, yet a right answer worked with one figure more on "
            f"the way is refused {_on(refused, sheets)}; give it more figures or a wider tolerance",
            fault=True,
        )


def _refused(
    exercise_set: ExerciseSet, exercise: Exercise, method: Method, steps: Steps, sheet: Sheet
) -> bool:
    """Return whether rounding on the way, with one figure more, leads out of what is right."""
    more = exercise.figures + 1
    earlier = {
        name: _rounded(value, more) if exercise_set[name].form == "value" else value
        for name, value in sheet.answers.items()
    }
    value = from_si(_by_hand(steps, method.values(sheet.givens, earlier), more), exercise.unit)
    written = to_si(_rounded(value, exercise.figures), exercise.unit)
    right = sheet.answers[exercise.id]
    return abs(written - right) > margin(exercise, right)


def _by_hand(steps: Steps, values: Mapping[str, float], figures: int) -> float:
    """Return what a formula comes to if every step but the last is rounded."""
    known = {name: each.value for name, each in CONSTANTS.items()} | dict(values)
    *earlier, (_, last) = steps
    for name, work_out in earlier:
        known[name] = _rounded(work_out(known), figures)
    return last(known)


def _rounded(number: float, figures: int) -> float:
    """Return a number with so many figures."""
    step = last_figure(number, figures)
    return round(number / step) * step if step else number


def _rivals(
    exercise_set: ExerciseSet, exercise: Exercise, sheets: Sequence[Sheet]
) -> Iterator[Remark]:
    """Yield the likely slips that pass for the right answer."""
    for rival in rivals_of(exercise_set, exercise.id, sheets):
        yield Remark(
            exercise.id,
            f"who makes the slip {rival.key} is told that all is right {_on(rival.seeds, sheets)}"
            f"; {_cure(exercise, rival)}",
            fault=len(rival.seeds) > OFTEN * len(sheets),
        )


def _cure(exercise: Exercise, rival: Rival) -> str:
    """Return what to do about a rival."""
    if rival.nearest > 1e-3:
        narrower = f"a tolerance below {rival.nearest:.2g} tells it apart"
        return f"{narrower} (it is {exercise.tolerance:g}), or {_harmless(rival)}"
    declared = "declare it as a slip, then sheets on which it passes are drawn again"
    return f"{declared}, or {_harmless(rival)}"


def _harmless(rival: Rival) -> str:
    return f'write harmless = ["{rival.key}"] if nothing is wrong with that'


def _on(seeds: Sequence[int], sheets: Sequence[Sheet]) -> str:
    """Return on how many sheets, with examples."""
    named = ", ".join(map(str, seeds[:MOST]))
    return f"on {len(seeds)} of {len(sheets)} sheets (such as {named})"


def _range(exercise: Exercise) -> Iterator[Remark]:
    """Yield a remark if the expected range is narrow."""
    if 0 < exercise.low < exercise.high and math.log(exercise.high / exercise.low) < WIDE:
        widest = exercise.low * math.exp(WIDE)
        yield Remark(
            exercise.id,
            f"its range from {exercise.low:g} to {exercise.high:g} is narrow, so few slips can be "
            f"told apart; up to {widest:.3g} would do",
            fault=False,
        )

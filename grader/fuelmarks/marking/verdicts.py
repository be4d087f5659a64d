"""What one readable answer amounts to: right, carried through, a known slip, or wrong.

Each rule looks at one plain SI number and either knows it or passes it on to the next.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from fuelcircuits.errors import CircuitError
from fuelcircuits.quantities.kinds import dimension_of
from fuelcircuits.quantities.trade_units import labelled

from fuelmarks.questions import Exercise, Formula, Sheet
from fuelmarks.questions.frame.drawing import margin, to_si

__all__ = ["RIGHT", "STANDARD_ATMOSPHERE", "Finding", "Own", "judge"]

STANDARD_ATMOSPHERE = 101_325.0
"""Pressure between gauge and absolute [Pa] where a sheet gives none (ISO 2533)."""


@dataclass(frozen=True)
class Finding:
    """A verdict, the share of the points that goes with it, and what to say."""

    verdict: str
    share: float
    comment: str


class Own(NamedTuple):
    """The trainee's own value of an earlier step, and whether it was right."""

    value: float
    right: bool


def judge(exercise: Exercise, sheet: Sheet, own: Mapping[str, Own], value: float) -> Finding:
    """Return what `value` (SI) amounts to, where `own` are the trainee's earlier values."""
    for finding in _findings(exercise, sheet, own, value):
        return finding
    low, high = (to_si(bound, exercise.unit) for bound in (exercise.low, exercise.high))
    if not low <= value <= high:
        return Finding("implausible", 0.0, _implausible(exercise))
    return Finding("wrong", 0.0, "Not right, and not one of the usual slips. Go step by step.")


def _findings(
    exercise: Exercise, sheet: Sheet, own: Mapping[str, Own], value: float
) -> Iterator[Finding]:
    """Yield what `value` could be, the best first."""
    right = sheet.answers[exercise.id]
    if _near(exercise, value, right):
        yield RIGHT
    earlier = dict(sheet.answers) | {step: one.value for step, one in own.items()}
    if _near(exercise, value, _worked(exercise.reference, sheet, earlier)):
        wrong = [step for step in exercise.follows if step in own and not own[step].right]
        yield Finding("follow-through", 1.0, _carried(wrong)) if wrong else RIGHT
    for slip in exercise.slips:
        for values in (sheet.answers, earlier):
            if _near(exercise, value, _worked(slip.wrong, sheet, values)):
                yield Finding(f"slip:{slip.name}", slip.share, slip.comment)
    for shift in _datum_shifts(exercise, sheet):
        if _near(exercise, value, right + shift):
            yield Finding("slip:datum", 0.5, _datum(exercise))
    if any(_near(exercise, value * 10.0**power, right) for power in (-6, -3, -2, -1, 1, 2, 3, 6)):
        astray = POWER_OF_TEN if dimension_of(exercise.unit) else OF_A_NUMBER
        yield Finding("slip:power-of-ten", 0.25, astray)


POWER_OF_TEN = (
    "The digits are right, the size is not: a power of ten went astray. Look at the prefixes "
    "(Pa or kPa, g or kg) and at squared or cubed units: 1 m² is a million mm²."
)


OF_A_NUMBER = (
    "The digits are right, the size is not: a power of ten went astray. If you mean percent, "
    'write it: Q(12, "percent") is 0.12, and 12 alone is twelve whole times.'
)


RIGHT = Finding("right", 1.0, "Right.")


def _near(exercise: Exercise, value: float, result: float | None) -> bool:
    """Return whether `value` is `result`, as far as anybody could ask."""
    return result is not None and abs(value - result) <= margin(exercise, result)


def _worked(formula: Formula, sheet: Sheet, earlier: Mapping[str, float]) -> float | None:
    """Return the formula's result, or None where these values make none."""
    try:
        return float(formula(sheet.givens, earlier))
    except (CircuitError, ArithmeticError, TypeError, ValueError):
        return None


def _datum_shifts(exercise: Exercise, sheet: Sheet) -> tuple[float, ...]:
    """Return how far off an answer is that counts from the other datum."""
    ambient = sheet.givens.get("ambient_pressure", STANDARD_ATMOSPHERE)
    return {"absolute": (-ambient,), "gauge": (ambient,)}.get(exercise.datum, ())


def _datum(exercise: Exercise) -> str:
    """Return the comment for a pressure that counts from the other datum."""
    asked, got = exercise.datum, "gauge" if exercise.datum == "absolute" else "absolute"
    return (
        f"This is the {got} pressure; the question asks for the {asked} one. A gauge reads zero "
        "in the open air; absolute pressure counts from vacuum."
    )


def _carried(wrong: list[str]) -> str:
    """Return the comment for a step that is right with wrong values put in."""
    return (
        f"Right method, worked with your own value of {' and '.join(wrong)}: full points here. "
        "Mend that earlier step and this one comes right by itself."
    )


def _implausible(exercise: Exercise) -> str:
    """Return the comment for an answer out of all proportion."""
    most = labelled(f"{exercise.high:g}", exercise.unit)
    return (
        f"This is hard to believe: expect {exercise.low:g} to {most}. Check signs and powers of "
        "ten, and what you multiplied and divided."
    )

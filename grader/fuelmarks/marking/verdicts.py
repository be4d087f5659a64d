"""What one readable answer amounts to: right, carried through, a known slip, or wrong.

Each rule looks at one plain SI number and either knows it or passes it on to the next. A slip in
the author's words earns its share; one that was found by changing the formula only speaks.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from fuelcircuits.quantities.kinds import dimension_of
from fuelcircuits.quantities.trade_units import labelled

from fuelmarks.marking.carrying import Case, believable
from fuelmarks.questions import Exercise, Sheet
from fuelmarks.questions.frame.drawing import margin
from fuelmarks.slips.matching import size_astray
from fuelmarks.slips.telling import Place, look_at

__all__ = ["RIGHT", "STANDARD_ATMOSPHERE", "Finding", "families_in", "judge"]

STANDARD_ATMOSPHERE = 101_325.0
"""Pressure between gauge and absolute [Pa] where a sheet gives none (ISO 2533)."""
NARROW = 0.005
"""How near a slip's number an answer has to be that was written with three figures or more, as a
share of it."""
ROUGHEST = 0.05
"""The same for one that was written with fewer, however few they are."""


@dataclass(frozen=True)
class Finding:
    """A verdict, the share of the points that goes with it, and what to say."""

    verdict: str
    share: float
    comment: str


def judge(case: Case, value: float, rough: float = 0.0) -> Finding:
    """Return what `value` (SI) amounts to; `rough` is how roughly it was written."""
    for finding in _findings(case, value, _width(case, rough)):
        return finding
    return _unknown(case, value)


def _width(case: Case, rough: float) -> float:
    """Return how near a slip's number an answer has to be, as a share of it.

    Where the band of the question is narrower than that of a slip, the slip's is as narrow.
    """
    band = margin(case.exercise, case.right) / abs(case.right) if case.right else NARROW
    return min(max(min(NARROW, band), rough), ROUGHEST)


def families_in(verdict: str) -> tuple[str, ...]:
    """Return the families of slips that a verdict names; none if it hints at nothing."""
    sort, _, names = verdict.partition(":")
    return tuple(names.split("/")) if sort == "hint" else ()


def _findings(case: Case, value: float, width: float) -> Iterator[Finding]:
    """Yield what `value` could be, the best first."""
    exercise = case.exercise
    if _near(exercise, value, case.right):
        yield RIGHT
    if len(case.worked_from) > 1:
        yield from _carried_on(case, value)
    for slip in exercise.slips:
        for values in case.worked_from:
            result = case.worked(slip.wrong, values)
            if result is not None and abs(value - result) <= width * abs(result):
                yield Finding(f"slip:{slip.name}", slip.share, slip.comment)
    for shift in _datum_shifts(exercise, case.sheet):
        if _near(exercise, value, case.right + shift):
            yield Finding("slip:datum", 0.5, _datum(exercise))
    if size_astray(value, case.right, margin(exercise, case.right)):
        astray = POWER_OF_TEN if dimension_of(exercise.unit) else OF_A_NUMBER
        yield Finding("slip:power-of-ten", 0.25, astray)
    yield from _hints(case, value, width)


def _carried_on(case: Case, value: float) -> Iterator[Finding]:
    """Yield the finding for a step worked rightly from the trainee's own earlier values."""
    if _near(case.exercise, value, case.carried):
        wrong = [name for name in case.wrong if name not in case.dropped]
        yield Finding("follow-through", 1.0, _carried(wrong)) if wrong else RIGHT


def _hints(case: Case, value: float, width: float) -> Iterator[Finding]:
    """Yield what a wrong answer looks like, with the right earlier values or with his own."""
    sets = [case.sheet.answers]
    if case.wrong and case.carried is not None:
        sets.append(case.earlier)
    for earlier in sets:
        place = Place(case.exercise_set, case.exercise, case.sheet, earlier)
        hint = look_at(place, value, width)
        if hint:
            yield Finding(f"hint:{'/'.join(hint.families)}", 0.0, hint.comment)


def _unknown(case: Case, value: float) -> Finding:
    """Return the finding for an answer that nothing is known of."""
    plausible = believable(case.exercise, value)
    sort, said = ("wrong", WRONG) if plausible else ("implausible", _implausible(case.exercise))
    finding = Finding(sort, 0.0, _with_a_hint(case.exercise, said))
    if case.dropped and _near(case.exercise, value, case.from_all()):
        dropped = DROPPED.format(names=" and ".join(case.dropped))
        return replace(finding, comment=dropped)
    return finding


def _with_a_hint(exercise: Exercise, said: str) -> str:
    """Return what is said of an answer that nothing is known of, and the author's first hint."""
    return " ".join((said, *(f"Begin here: {hint}" for hint in exercise.hints[:1])))


WRONG = "Not right, and not one of the usual slips."
DROPPED = (
    "Nothing can be carried on from your own value of {names}: it is too far from anything that "
    "could be expected there. Mend that step first."
)
POWER_OF_TEN = (
    "The digits are right, the size is not: a power of ten went astray. Look at the prefixes "
    "(Pa or kPa, g or kg) and at squared or cubed units: 1 m² is a million mm²."
)


OF_A_NUMBER = (
    "The digits are right, the size is not: a power of ten went astray. If you mean percent, "
    'write it: "12 %" is 0.12, and 12 alone is twelve whole times.'
)


RIGHT = Finding("right", 1.0, "Right.")


def _near(exercise: Exercise, value: float, result: float | None) -> bool:
    """Return whether `value` is `result`, as far as anybody could ask."""
    return result is not None and abs(value - result) <= margin(exercise, result)


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

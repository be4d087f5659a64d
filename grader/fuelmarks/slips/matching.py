"""Which slip an answer fits, if any: named only where it is likelier than chance."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from fuelcircuits.quantities.trade_units import scale

from fuelmarks.formula.kinds import kind_of_unit
from fuelmarks.slips.change import COMMON, USUAL
from fuelmarks.slips.likely import WIDTH, Group, either
from fuelmarks.slips.sentences import ALIKE, SENTENCES

__all__ = ["CLOSE", "Hint", "Question", "hint_for", "size_astray"]

UNKNOWN = 0.5
"""Weight of all the slips that nobody thought of, over the whole plausible range."""
EITHER = 0.4
"""Share of the likeliest from which a second slip is told too."""
CLOSE = 2.0
"""Margins from the right answer within which nothing but the rounding is spoken of."""
NEARBY, CROWDED = 4.0, 3.0
"""Margins from the right answer within which small errors of every kind lie, and how many times
as thick as elsewhere."""
READ_AS = {
    "Pa": ("kPa", "psi", "inHg", "inH2O", "mbar"),
    "m": ("cm", "mm", "in"),
    "kg/s": ("g/s", "kg/h", "g/min", "lb/h"),
    "N": ("lbf", "kgf"),
    "s": ("min", "h"),
    "m^2": ("cm^2", "mm^2", "in^2"),
    "m^3": ("l", "ml", "in^3"),
    "m/s": ("km/h", "ft/s"),
    "1/s": ("1/min",),
    "kg": ("g", "lb"),
}
"""Units of the trade by kind, in one of which the number may have been meant."""
POWERS = (-6, -3, -2, -1, 1, 2, 3, 6)
DIGITS = 0.015
"""How far off digits may be, as a share, that are taken for those of the right answer."""


@dataclass(frozen=True)
class Hint:
    """What an answer looks like: the families it may come from, and what to say."""

    families: tuple[str, ...]
    comment: str


@dataclass(frozen=True)
class Question:
    """One question on one sheet, as matching needs it (SI)."""

    right: float
    margin: float
    low: float
    high: float
    unit: str


@dataclass(frozen=True)
class _Hit:
    families: tuple[str, ...]
    weight: float
    comment: str


def hint_for(
    question: Question,
    groups: Sequence[Group],
    values: dict[str, float],
    answer: float,
    width: float,
) -> Hint | None:
    """Return what a wrong `answer` (SI) looks like, or None if that is better left unsaid.

    Parameters
    ----------
    question
        Right answer, margin, plausible range and unit.
    groups
        The groups worth telling, as `likely.grouped` returns them.
    values
        The sheet's values for the formulas.
    answer
        The answer.
    width
        How near a slip's number the answer has to be [1, relative].
    """
    if abs(answer - question.right) <= CLOSE * question.margin:
        return Hint(("rounding",), ROUNDING)
    hits = [*_of_groups(question, groups, values, answer, width), *_of_labels(question, answer)]
    near = abs(answer - question.right) <= NEARBY * question.margin
    return _told(_by_comment(hits), width * (CROWDED if near else 1.0), question)


ROUNDING = "Close, and not close enough: look at your rounding on the way."


def _of_groups(
    question: Question,
    groups: Sequence[Group],
    values: dict[str, float],
    answer: float,
    width: float,
) -> list[_Hit]:
    """Return the groups whose number the answer is."""
    hits = []
    for group in groups:
        try:
            value = group.lead.value(values)
        except (ArithmeticError, ValueError, KeyError):
            continue
        if abs(answer - value) <= width * abs(value) and not _right(question, value):
            hits.append(_Hit(group.families, group.weight, group.comment))
    return hits


def _right(question: Question, value: float) -> bool:
    return abs(value - question.right) <= question.margin


def size_astray(answer: float, right: float, margin: float) -> bool:
    """Return whether an answer has the digits of the right one, a power of ten off.

    Digits are told apart more closely than answers, for 9.81 are not those of ten.
    """
    near = min(margin, DIGITS * abs(right))
    return any(abs(answer * 10.0**power - right) <= near for power in POWERS)


def _of_labels(question: Question, answer: float) -> list[_Hit]:
    """Return the right number read in another unit, or a power of ten off."""
    hits = []
    if size_astray(answer, question.right, question.margin):
        weight = USUAL if any(kind_of_unit(question.unit)) else COMMON
        hits.append(_Hit(("power-of-ten",), weight, SENTENCES["power-of-ten"]))
    kind = kind_of_unit(question.unit)
    for base, units in READ_AS.items():
        for unit in units if kind_of_unit(base) == kind and any(kind) else ():
            factor = scale(question.unit).factor / scale(unit).factor
            power = math.log10(factor)
            if abs(power - round(power)) > 1e-6 and abs(answer - question.right * factor) <= (
                WIDTH * abs(question.right * factor)
            ):
                said = SENTENCES["unit-of-answer"].format(other=unit)
                hits.append(_Hit(("unit-of-answer",), USUAL, said))
    return hits


def _by_comment(hits: list[_Hit]) -> list[_Hit]:
    """Return the hits, the likeliest of each comment, in order of weight."""
    best: dict[str, _Hit] = {}
    for hit in sorted(hits, key=lambda one: -one.weight):
        best.setdefault(hit.comment, hit)
    return list(best.values())


def _told(hits: list[_Hit], width: float, question: Question) -> Hint | None:
    """Return the one hit or the two that are likelier than chance, else nothing."""
    if not hits:
        return None
    span = max(0.2, math.log(question.high / question.low)) if question.low > 0 else math.log(1e3)
    chance = UNKNOWN * 2 * width / span
    total = sum(hit.weight for hit in hits)
    if total / (total + chance) < 0.5:
        return None
    close = [hit for hit in hits if hit.weight >= EITHER * hits[0].weight]
    if len(close) > 2 and len({_sort(hit) for hit in close}) > 1:
        return None
    families = tuple(dict.fromkeys(family for hit in close[:2] for family in hit.families))
    comments = [hit.comment for hit in close[:2]]
    return Hint(families, comments[0] if len(comments) == 1 else either(*comments))


def _sort(hit: _Hit) -> str:
    return ALIKE.get(hit.families[0], hit.families[0])

"""The slips to expect in a unit, question by question, and how often a class has made them.

What a class has made is counted elsewhere and handed in; without it the author's own slips stand.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TypeAlias

from fuelmarks.marking.adjusting import slip_name
from fuelmarks.questions import Adjustment, Choice, Driven, Exercise, ExerciseSet
from fuelmarks.slips.sentences import SENTENCES, of_any

__all__ = ["Made", "Said", "UsualSlips", "usual_slips"]

FEW = 2
"""Slips of a question that stand there although no class has made them."""
MOST = 4
Made: TypeAlias = Mapping[tuple[str, str, str], tuple[int, int]]
"""How often a slip was told, and among how many answers, by question, whose words, and slip."""


@dataclass(frozen=True)
class Said:
    """What is said about a slip, and how many of how many answers have made it."""

    words: str
    times: int = 0
    answers: int = 0


@dataclass(frozen=True)
class UsualSlips:
    """The slips of one question, the commonest first."""

    question: str
    said: tuple[Said, ...]


def usual_slips(exercise_set: ExerciseSet, made: Made) -> Iterator[UsualSlips]:
    """Yield the slips of every question that has any."""
    for exercise in exercise_set:
        if said := tuple(_of(exercise, made)):
            yield UsualSlips(exercise.id.replace("-", " "), said)


def _of(exercise: Exercise, made: Made) -> list[Said]:
    """Return the slips of one question: those that were made, and the author's first ones."""
    declared = [
        Said(words, *made.get((exercise.id, "author", name), (0, 0)))
        for name, words in _declared(exercise)
    ]
    found = [
        Said(of_any(slip) if slip in SENTENCES else slip, *counted)
        for (question, whose, slip), counted in made.items()
        if (question, whose) == (exercise.id, "family")
    ]
    usual = [] if _any_may_be_right(exercise) else declared[:FEW]
    told = [one for one in (*declared, *found) if one.times or one in usual]
    return sorted(told, key=lambda one: -one.times)[:MOST]


def _declared(exercise: Exercise) -> list[tuple[str, str]]:
    """Return name and words of every slip that the author knows of."""
    if isinstance(exercise, Adjustment):
        sides = dict.fromkeys(side for want in exercise.wants for side in (want.below, want.above))
        return [(slip_name(side), f"{side[0].upper()}{side[1:]}.") for side in sides]
    return [(slip.name, slip.comment) for slip in exercise.slips]


def _any_may_be_right(exercise: Exercise) -> bool:
    """Say whether it is drawn which of its options is the right one."""
    chosen = isinstance(exercise, Choice) and not isinstance(exercise, Driven)
    return chosen and exercise.sketch is not None

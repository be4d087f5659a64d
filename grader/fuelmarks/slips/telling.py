"""The slips of a question of a set, found once and kept, and what a wrong answer looks like."""

from collections.abc import Mapping
from functools import lru_cache
from typing import NamedTuple

from fuelmarks.questions import Exercise, ExerciseSet, Sheet, draw
from fuelmarks.questions.frame.drawing import margin, to_si
from fuelmarks.slips.candidate import Candidate, candidates
from fuelmarks.slips.likely import PROBES, Group, Probe, grouped
from fuelmarks.slips.matching import Hint, Question, hint_for

__all__ = ["Place", "candidates_of", "groups_of", "look_at", "probes_of"]

FIRST_PROBE = 9000
"""Seed of the first sheet on which candidates are compared."""


class Place(NamedTuple):
    """One question on one sheet; `earlier` are the answers it may have been worked from (SI)."""

    exercise_set: ExerciseSet
    exercise: Exercise
    sheet: Sheet
    earlier: Mapping[str, float]


def look_at(place: Place, answer: float, width: float) -> Hint | None:
    """Return what a wrong `answer` (SI) looks like; None if that is better left unsaid.

    `width` is how near the number of a slip it has to be, as a share.
    """
    exercise, method = place.exercise, place.exercise.method
    if method is None:
        return None
    try:
        right = method(place.sheet.givens, place.earlier)
    except (ArithmeticError, ValueError):
        return None
    low, high = (to_si(bound, exercise.unit) for bound in (exercise.low, exercise.high))
    question = Question(right, margin(exercise, right), low, high, exercise.unit)
    values = method.values(place.sheet.givens, place.earlier)
    return hint_for(question, groups_of(place.exercise_set, exercise.id), values, answer, width)


@lru_cache(maxsize=512)
def groups_of(exercise_set: ExerciseSet, name: str) -> tuple[Group, ...]:
    """Return the groups of slips worth telling in one question, found once."""
    exercise = exercise_set[name]
    low, high = (to_si(bound, exercise.unit) for bound in (exercise.low, exercise.high))
    return grouped(
        candidates_of(exercise_set, name),
        probes_of(exercise_set, name),
        near_right=lambda value, right: abs(value - right) <= margin(exercise, right),
        low=low,
        high=high,
    )


def candidates_of(exercise_set: ExerciseSet, name: str) -> list[Candidate]:
    """Return every candidate for a slip in one question; none if it has no formula."""
    method = exercise_set[name].method
    return candidates(method, tuple(one.name for one in exercise_set.givens)) if method else []


def probes_of(exercise_set: ExerciseSet, name: str) -> list[Probe]:
    """Return the sheets on which the candidates of one question are compared."""
    exercise = exercise_set[name]
    return [_probe(exercise, sheet) for sheet in _sheets(exercise_set)]


@lru_cache(maxsize=32)
def _sheets(exercise_set: ExerciseSet) -> tuple[Sheet, ...]:
    """Return the sheets on which the candidates of a unit are compared."""
    return tuple(draw(exercise_set, FIRST_PROBE + count) for count in range(PROBES))


def _probe(exercise: Exercise, sheet: Sheet) -> Probe:
    """Return one sheet to compare candidates on."""
    assert exercise.method is not None
    declared = tuple(_worked(exercise, sheet, place) for place in range(len(exercise.slips)))
    values = exercise.method.values(sheet.givens, sheet.answers)
    return Probe(values, sheet.answers[exercise.id], declared)


def _worked(exercise: Exercise, sheet: Sheet, place: int) -> float | None:
    """Return what one of the author's own slips comes to; None where it comes to nothing."""
    try:
        return float(exercise.slips[place].wrong(sheet.givens, sheet.answers))
    except (ArithmeticError, ValueError):
        return None

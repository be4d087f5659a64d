"""The slips of a question of a set, found once and kept, and what a wrong answer looks like."""

from functools import lru_cache

from fuelmarks.questions import Exercise, ExerciseSet, Sheet, draw
from fuelmarks.questions.frame.drawing import margin, to_si
from fuelmarks.slips.candidate import candidates
from fuelmarks.slips.likely import PROBES, Group, Probe, grouped
from fuelmarks.slips.matching import Hint, Question, hint_for

__all__ = ["groups_of", "look_at"]

FIRST_PROBE = 9000
"""Seed of the first sheet on which candidates are compared."""


def look_at(
    exercise_set: ExerciseSet, exercise: Exercise, sheet: Sheet, answer: float, written: float = 0.0
) -> Hint | None:
    """Return what a wrong `answer` (SI) looks like; None if that is better left unsaid.

    `written` is half of the last written figure over the number, where it was written roughly.
    """
    method = exercise.method
    if method is None:
        return None
    right = sheet.answers[exercise.id]
    low, high = (to_si(bound, exercise.unit) for bound in (exercise.low, exercise.high))
    question = Question(right, margin(exercise, right), low, high, exercise.unit)
    values = method.values(sheet.givens, sheet.answers)
    groups = groups_of(exercise_set, exercise.id)
    return hint_for(question, groups, values, answer, written=written)


@lru_cache(maxsize=512)
def groups_of(exercise_set: ExerciseSet, name: str) -> tuple[Group, ...]:
    """Return the groups of slips worth telling in one question, found once."""
    exercise = exercise_set[name]
    method = exercise.method
    if method is None:
        return ()
    low, high = (to_si(bound, exercise.unit) for bound in (exercise.low, exercise.high))
    return grouped(
        candidates(method, tuple(one.name for one in exercise_set.givens)),
        [_probe(exercise_set, exercise, FIRST_PROBE + count) for count in range(PROBES)],
        near_right=lambda value, right: abs(value - right) <= margin(exercise, right),
        low=low,
        high=high,
    )


def _probe(exercise_set: ExerciseSet, exercise: Exercise, seed: int) -> Probe:
    """Return one sheet to compare candidates on."""
    sheet = draw(exercise_set, seed)
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

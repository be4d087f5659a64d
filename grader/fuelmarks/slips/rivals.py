"""Rivals of the right answer: likely slips whose number passes for it on some sheets.

A rival is no use to anybody who marks, since whoever makes that slip is told that all is right.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from fuelmarks.questions import Exercise, ExerciseSet, Sheet
from fuelmarks.questions.frame.drawing import margin
from fuelmarks.slips.candidate import Candidate
from fuelmarks.slips.likely import Ratios, alike
from fuelmarks.slips.telling import candidates_of, probes_of

__all__ = ["LIKELY", "Rival", "rivals_of"]

LIKELY = 0.009
"""Weight from which a slip counts as a rival."""
SAME = 1e-5


@dataclass(frozen=True)
class Rival:
    """A slip that passes for the right answer: its key, what is said of it, on which sheets.

    `nearest` is the least tolerance on any sheet below which it would not pass [1, relative].
    """

    key: str
    comment: str
    seeds: tuple[int, ...]
    nearest: float


def rivals_of(exercise_set: ExerciseSet, name: str, sheets: Sequence[Sheet]) -> list[Rival]:
    """Return the rivals of the right answer to a question that its author does not call harmless.

    The likeliest come first.
    """
    exercise = exercise_set[name]
    groups = alike(candidates_of(exercise_set, name), probes_of(exercise_set, name))
    weighed = [
        (sum(one.weight for one in members), members[0])
        for ratios, members in groups
        if not _equal(ratios) and not any(_called_harmless(exercise, one) for one in members)
    ]
    likely = [lead for weight, lead in sorted(weighed, key=lambda one: -one[0]) if weight >= LIKELY]
    found = (_rival(exercise, lead, sheets) for lead in likely)
    return [one for one in found if one.seeds]


def _equal(ratios: Ratios) -> bool:
    """Return whether a change of the formula always leaves the answer as it is."""
    return all(one is not None and abs(one - 1) <= SAME for one in ratios)


def _called_harmless(exercise: Exercise, one: Candidate) -> bool:
    return ":".join(one.key.split(":")[:2]) in exercise.harmless


def _rival(exercise: Exercise, lead: Candidate, sheets: Sequence[Sheet]) -> Rival:
    """Return on which sheets a slip passes for the right answer."""
    seeds, nearest = [], float("inf")
    for sheet in sheets:
        off = _off(exercise, lead, sheet)
        right = sheet.answers[exercise.id]
        if off is not None and off <= margin(exercise, right):
            seeds.append(sheet.seed)
            nearest = min(nearest, off / abs(right))
    return Rival(":".join(lead.key.split(":")[:2]), lead.comment, tuple(seeds), nearest)


def _off(exercise: Exercise, lead: Candidate, sheet: Sheet) -> float | None:
    """Return how far a slip's number is from the right one; None where it comes to nothing."""
    assert exercise.method is not None
    try:
        value = lead.value(exercise.method.values(sheet.givens, sheet.answers))
    except (ArithmeticError, ValueError, KeyError):
        return None
    return abs(value - sheet.answers[exercise.id])

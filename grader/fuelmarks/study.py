"""Study mode: the full comment at once, for somebody who learns alone.

The answer sheet finds `tell` by the entry point group ``fuelcircuits.study``. The seed comes
from the trainee's name and a key that everybody may know: there is nothing to protect. How far
somebody has got is not kept; the notebook itself is the record.
"""

from collections.abc import Mapping
from typing import Any

from fuelcircuits.errors import CardError

from fuelmarks.exercises import load, seed_of
from fuelmarks.marking import Mark, mark

__all__ = ["STUDY_KEY", "study_seed", "tell"]

STUDY_KEY = "study"
TRIES_BEFORE_ANSWER = 3


def study_seed(trainee: str, unit: str) -> int:
    """Return the seed of a study-mode sheet."""
    return seed_of(trainee, unit, STUDY_KEY)


def tell(
    unit: str, trainee: str, exercise: str, records: Mapping[str, Mapping[str, Any]], tries: int
) -> str:
    """Return what to say about the answer to `exercise` among `records`, at try number `tries`.

    Each try brings one more hint, the third the worked answer.
    """
    try:
        exercise_set = load(unit)
        hints = exercise_set[exercise].hints
    except (CardError, KeyError) as error:
        return f"This answer cannot be checked here: {error.args[0]}."
    found = mark(exercise_set, study_seed(trainee, unit), records)[exercise]
    lines = [f"{found.points:g} of {found.out_of} points. {found.comment}"]
    if found.verdict == "right" or tries >= TRIES_BEFORE_ANSWER:
        lines = [f"{found.points:g} of {found.out_of} points. {found.study_comment}"]
    elif _helped(found):
        lines += [f"Hint: {hint}" for hint in hints[: max(tries, 1)]]
    return "\n".join(lines)


def _helped(found: Mark) -> bool:
    """Return whether a hint on the method is of use: not where only the writing was amiss."""
    return found.verdict in ("wrong", "implausible", "wrong-dimension") or ":" in found.verdict

"""What study mode says to a prediction: whether it is right, and why; at once, with no marks."""

from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path
from typing import Any

from fuelmarks.course.foretold import AGAIN, FIRST, key_to
from fuelmarks.questions import ExerciseSet, Prediction
from fuelmarks.study.predictions import keep_first
from fuelmarks.study.progress import find_progress

__all__ = ["prediction_named", "tell_prediction"]


def prediction_named(exercise_set: ExerciseSet, exercise: str) -> Prediction | None:
    """Return the key to what a notebook hands over under the name `exercise`, if it is one."""
    which, _, name = exercise.partition("-")
    return key_to(exercise_set, name) if which in (FIRST, AGAIN) else None


def tell_prediction(unit: str, exercise: str, key: Prediction, record: Mapping[str, Any]) -> str:
    """Return what to say about the letter in `record`; nobody learns the key by leaving it out.

    The first letter is kept where progress is kept, before the key is told.
    """
    if record.get("kind") == "blank":
        return "Write the letter of your choice between the quotes first."
    letter = str(record.get("text", "")).strip().upper() if record.get("kind") == "text" else ""
    if len(letter) != 1:
        return 'Write one letter between the quotes, such as "A".'
    if exercise.startswith(FIRST):
        _keep(unit, key.id, letter)
    if letter == key.right:
        return f"{letter} is right. {key.why}"
    return f"You say {letter}; it is {key.right}. {key.why}"


def _keep(unit: str, name: str, letter: str) -> None:
    """Keep a first letter in the study folder; a disk that takes none is no reason to be silent."""
    folder = find_progress(Path.cwd())
    if folder is not None:
        with suppress(OSError):
            keep_first(folder.parent, unit, name, letter)

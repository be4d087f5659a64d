"""What study mode says to a prediction: whether it is right, and why; at once, with no marks."""

from collections.abc import Mapping
from typing import Any

from fuelmarks.course.foretold import AGAIN, FIRST, key_to
from fuelmarks.questions import ExerciseSet, Prediction

__all__ = ["prediction_named", "tell_prediction"]


def prediction_named(exercise_set: ExerciseSet, exercise: str) -> Prediction | None:
    """Return the key to what a notebook hands over under the name `exercise`, if it is one."""
    which, _, name = exercise.partition("-")
    return key_to(exercise_set, name) if which in (FIRST, AGAIN) else None


def tell_prediction(key: Prediction, record: Mapping[str, Any]) -> str:
    """Return what to say about the letter in `record`; nobody learns the key by leaving it out."""
    if record.get("kind") == "blank":
        return "Write the letter of your choice between the quotes first."
    letter = str(record.get("text", "")).strip().upper() if record.get("kind") == "text" else ""
    if len(letter) != 1:
        return 'Write one letter between the quotes, such as "A".'
    if letter == key.right:
        return f"{letter} is right. {key.why}"
    return f"You say {letter}; it is {key.right}. {key.why}"

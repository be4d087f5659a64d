"""Find the questions of a unit by the unit's name."""

import importlib
import re

from fuelcircuits.errors import CardError

from fuelmarks.questions.frame.exercise import ExerciseSet

__all__ = ["find", "load"]

ROOM = __package__.rpartition(".")[0]


def load(unit: str) -> ExerciseSet:
    """Return the questions of `unit`: those of ``02-float-bowl`` are in `float_bowl.unit`."""
    if found := find(unit):
        return found
    raise CardError(f"unit must have an exercise set, such as 02-float-bowl, got {unit!r}")


def find(unit: str) -> ExerciseSet | None:
    """Return the questions of `unit` that come with this package; None if there are none."""
    match = re.fullmatch(r"\d\d-([a-z][a-z-]{0,60})", unit)
    found = _found(f"{ROOM}.{match[1].replace('-', '_')}") if match else None
    return found if isinstance(found, ExerciseSet) and found.unit == unit else None


def _found(room: str) -> object:
    """Return what the room of a unit calls its exercises; None if there is no such room."""
    try:
        return getattr(importlib.import_module(f"{room}.unit"), "EXERCISES", None)
    except ModuleNotFoundError as error:
        if error.name not in (room, f"{room}.unit"):
            raise
        return None

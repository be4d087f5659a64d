"""Find the exercise set of a unit by the unit's name."""

import importlib
import importlib.util
import re

from fuelcircuits.errors import CardError

from fuelmarks.exercises.exercise import ExerciseSet

__all__ = ["load"]


def load(unit: str) -> ExerciseSet:
    """Return the exercises of `unit`, so that ``02-float-circuit`` is module `float_circuit`."""
    match = re.fullmatch(r"\d\d-([a-z][a-z-]{0,60})", unit)
    name = f"{__package__}.{match[1].replace('-', '_')}" if match else ""
    if name and importlib.util.find_spec(name):
        found = getattr(importlib.import_module(name), "EXERCISES", None)
        if isinstance(found, ExerciseSet) and found.unit == unit:
            return found
    raise CardError(f"unit must have an exercise set, such as 02-float-circuit, got {unit!r}")

"""One module a unit: givens, reference functions and slips."""

from fuelmarks.exercises.drawing import Sheet, Shown, draw, seed_of
from fuelmarks.exercises.exercise import Exercise, ExerciseSet, Formula, Given, Slip, Values
from fuelmarks.exercises.shelf import load

__all__ = [
    "Exercise",
    "ExerciseSet",
    "Formula",
    "Given",
    "Sheet",
    "Shown",
    "Slip",
    "Values",
    "draw",
    "load",
    "seed_of",
]

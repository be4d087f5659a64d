"""One module a unit: givens, reference functions and slips."""

from fuelmarks.exercises.choice import Choice, Near, Selection
from fuelmarks.exercises.drawing import Sheet, Shown, draw, seed_of
from fuelmarks.exercises.exercise import Exercise, ExerciseSet, Formula, Given, Slip, Values
from fuelmarks.exercises.shelf import load

__all__ = [
    "Choice",
    "Exercise",
    "ExerciseSet",
    "Formula",
    "Given",
    "Near",
    "Selection",
    "Sheet",
    "Shown",
    "Slip",
    "Values",
    "draw",
    "load",
    "seed_of",
]

"""One room a unit: givens, reference functions and slips; `frame` is what they are made of."""

from fuelmarks.questions.frame.adjustment import Adjustment
from fuelmarks.questions.frame.choice import Choice, Near, Selection
from fuelmarks.questions.frame.drawing import Sheet, Shown, draw, seed_of
from fuelmarks.questions.frame.driven import Driven
from fuelmarks.questions.frame.exercise import (
    Exercise,
    ExerciseSet,
    Formula,
    Given,
    Prediction,
    Slip,
    Values,
    Written,
)
from fuelmarks.questions.frame.shelf import load

__all__ = [
    "Adjustment",
    "Choice",
    "Driven",
    "Exercise",
    "ExerciseSet",
    "Formula",
    "Given",
    "Near",
    "Prediction",
    "Selection",
    "Sheet",
    "Shown",
    "Slip",
    "Values",
    "Written",
    "draw",
    "load",
    "seed_of",
]

"""Unit 00, shop arithmetic: pressures, holes, tolerances, and two questions from school."""

from fuelmarks.questions.frame.unit import unit_of

__all__ = ["EXERCISES"]

EXERCISES = unit_of(__package__, unit="00-shop-arithmetic")

"""Unit 04, the low-speed circuit: jet, bleeds and screw, and two questions from before."""

from fuelmarks.questions.frame.unit import unit_of

__all__ = ["EXERCISES"]

EXERCISES = unit_of(__package__, unit="04-low-speed")

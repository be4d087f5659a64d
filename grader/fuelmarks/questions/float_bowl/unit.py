"""Unit 02, the float circuit: needle and buoyancy, level, inlet, and two questions from before."""

from fuelmarks.questions.frame.unit import unit_of

__all__ = ["EXERCISES"]

EXERCISES = unit_of(__package__, unit="02-float-bowl", first_name="02-float-circuit")

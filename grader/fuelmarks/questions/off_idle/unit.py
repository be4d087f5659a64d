"""Unit 05, off idle: the slot at the edge of the plate, the bleed valve, and two from before."""

from fuelmarks.questions.frame.unit import unit_of

__all__ = ["EXERCISES"]

EXERCISES = unit_of(__package__, unit="05-off-idle")

"""Unit 13, the overhaul: warp, wear, leaks, soak, torque, time and money, and two from before."""

from fuelmarks.questions.frame.unit import unit_of

__all__ = ["EXERCISES"]

EXERCISES = unit_of(__package__, unit="13-overhaul")

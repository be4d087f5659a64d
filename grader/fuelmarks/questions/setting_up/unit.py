"""Unit 11, setting up: what a gauge is good for, what a reading proves, and two from before."""

from fuelmarks.questions.frame.unit import unit_of

__all__ = ["EXERCISES"]

EXERCISES = unit_of(__package__, unit="11-setting-up")

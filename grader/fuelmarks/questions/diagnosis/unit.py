"""Unit 12, diagnosis: three cars with a hidden fault, and two from before about a loose hose."""

from fuelmarks.questions.diagnosis import cases
from fuelmarks.questions.frame.unit import unit_of

__all__ = ["EXERCISES"]

EXERCISES = unit_of(__package__, unit="12-diagnosis", after={"": cases.EXERCISES})

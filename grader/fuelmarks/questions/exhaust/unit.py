"""Unit 10, mixture and exhaust: air for a fuel, lambda of a gas, blends, work, two from before."""

from fuelmarks.questions.frame.unit import unit_of

__all__ = ["EXERCISES"]

EXERCISES = unit_of(__package__, unit="10-exhaust", first_name="10-mixture-and-exhaust")

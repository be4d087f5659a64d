"""Unit 01, the air side: demand, venturi and throttle, and two questions from before."""

from fuelmarks.questions.frame.unit import unit_of

__all__ = ["EXERCISES"]

EXERCISES = unit_of(__package__, unit="01-air-path", first_name="01-air-side")

"""Unit 06, the high-speed circuit: start, jet, flow and altitude, and two from before."""

from fuelmarks.questions.frame.unit import unit_of

__all__ = ["EXERCISES"]

EXERCISES = unit_of(__package__, unit="06-high-speed")

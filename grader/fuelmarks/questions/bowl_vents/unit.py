"""Unit 03, bowl venting and the hot start: mixture, vents, vapour, and two from before."""

from fuelmarks.questions.frame.unit import unit_of

__all__ = ["EXERCISES"]

EXERCISES = unit_of(__package__, unit="03-bowl-vents", first_name="03-bowl-venting")

"""Unit 07, power enrichment: rod and ring, spring and vacuum, and two from before."""

from fuelmarks.questions.frame.unit import unit_of

__all__ = ["EXERCISES"]

EXERCISES = unit_of(__package__, unit="07-power", first_name="07-power-enrichment")

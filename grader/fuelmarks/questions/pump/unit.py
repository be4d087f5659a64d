"""Unit 08, the accelerator pump: shot and jet, film and cover, and two from before."""

from fuelmarks.questions.frame.unit import unit_of

__all__ = ["EXERCISES"]

EXERCISES = unit_of(__package__, unit="08-pump", first_name="08-accelerator-pump")

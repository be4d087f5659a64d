"""Unit 09, choke and cold start: coil, plate, pull-off, cold fuel, timer, and two from before."""

from fuelmarks.questions.frame.unit import unit_of

__all__ = ["EXERCISES"]

EXERCISES = unit_of(__package__, unit="09-choke", first_name="09-choke-and-cold-start")

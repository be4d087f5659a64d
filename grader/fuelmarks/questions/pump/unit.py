"""Unit 08, the accelerator pump: shot and jet, film and cover, and two from before."""

from fuelmarks.questions.frame.find_part import find_part
from fuelmarks.questions.frame.unit import unit_of

__all__ = ["EXERCISES"]

PARTS = ("duration-spring", "pump-plunger", "inlet-check", "discharge-check", "pump-jet")
FIND = find_part("name-the-part", "pump", PARTS, "marked_part", ("PMP-1",))

EXERCISES = unit_of(__package__, unit="08-pump", after={"shot-cover": (FIND,)})

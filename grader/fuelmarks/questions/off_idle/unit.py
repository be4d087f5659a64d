"""Unit 05, off idle: the slot at the edge of the plate, the bleed valve, and two from before."""

from fuelmarks.questions.frame.find_part import find_part
from fuelmarks.questions.frame.unit import unit_of

__all__ = ["EXERCISES"]

PARTS = ("economizer", "idle-chamber", "slot", "mixture-screw", "bleed-valve")
FIND = find_part("name-the-part", "off-idle", PARTS, "marked_part", ("OFF-1",))

EXERCISES = unit_of(__package__, unit="05-off-idle", after={"full-open-vacuum": (FIND,)})

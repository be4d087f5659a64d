"""Kinds of quantity, and a control, that the benches of several circuits have."""

from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.measure import Measure, Scale, measure

__all__ = ["ALTITUDE", "CHAMBER", "INCH", "TURNS", "WATER", "height"]

ALTITUDE = measure("m", ("m", 0), ("foot", 0))
CHAMBER = measure("Pa", ("kPa", 2), ("inch_H2O", 1), beside=("inch_H2O", 1))
WATER = measure("Pa", ("inch_H2O", 1), ("inch_H2O", 1))
"""A water column, whose scale the trade has in inches everywhere."""
TURNS = Measure(Scale("turns", 1.0, 0.0, 2), Scale("turns", 1.0, 0.0, 2))
INCH = 249.089
"""Pascals in an inch of water."""


def height() -> Control:
    """Return the control for the height at which the engine runs."""
    return Control("Height above sea", ALTITUDE, 0, 3000, steps=(100, 250), start=0)

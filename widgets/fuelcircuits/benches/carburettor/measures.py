"""Kinds of quantity that the benches of several circuits show."""

from fuelcircuits.benches.frame.measure import Measure, Scale, measure

__all__ = ["ALTITUDE", "CHAMBER", "INCH", "TURNS", "WATER"]

ALTITUDE = measure("m", ("m", 0), ("foot", 0))
CHAMBER = measure("Pa", ("kPa", 2), ("inch_H2O", 1), beside=("inch_H2O", 1))
WATER = measure("Pa", ("inch_H2O", 1), ("inch_H2O", 1))
"""A water column, whose scale the trade has in inches everywhere."""
TURNS = Measure(Scale("turns", 1.0, 0.0, 2), Scale("turns", 1.0, 0.0, 2))
INCH = 249.089
"""Pascals in an inch of water."""

"""The units that benches show: a table, so that a bench needs no units library.

Factors: NIST Special Publication 811 (2008), appendix B.8, with the pound, the inch and the
standard acceleration of fall exact. A test holds every line to Pint, whose names these are.
"""

from collections.abc import Mapping
from math import pi
from typing import NamedTuple

__all__ = ["UNITS", "Unit"]


class Unit(NamedTuple):
    """A unit: the SI unit of its kind, how much of that one is, and where its nought lies."""

    label: str
    kind: str
    one: float = 1.0
    nought: float = 0.0


POUND = 0.45359237
POUND_FORCE = POUND * 9.80665
INCH = 0.0254

UNITS: Mapping[str, Unit] = {
    "dimensionless": Unit("", "dimensionless"),
    "percent": Unit("%", "dimensionless", 0.01),
    "rad": Unit("rad", "rad"),
    "degree": Unit("°", "rad", pi / 180),
    "rad/s": Unit("rad/s", "rad/s"),
    "revolution/minute": Unit("rpm", "rad/s", pi / 30),
    "s": Unit("s", "s"),
    "minute": Unit("min", "s", 60.0),
    "K": Unit("K", "K"),
    "degC": Unit("°C", "K", 1.0, 273.15),
    "degF": Unit("°F", "K", 5 / 9, 459.67 * 5 / 9),
    "m": Unit("m", "m"),
    "mm": Unit("mm", "m", 1e-3),
    "inch": Unit("in", "m", INCH),
    "foot": Unit("ft", "m", 12 * INCH),
    "m**2": Unit("m²", "m**2"),
    "mm**2": Unit("mm²", "m**2", 1e-6),
    "inch**2": Unit("in²", "m**2", INCH**2),
    "m**3": Unit("m³", "m**3"),
    "cm**3": Unit("cm³", "m**3", 1e-6),
    "floz": Unit("fl oz", "m**3", 231 * INCH**3 / 128),
    "m/s": Unit("m/s", "m/s"),
    "foot/second": Unit("ft/s", "m/s", 12 * INCH),
    "kg": Unit("kg", "kg"),
    "g": Unit("g", "kg", 1e-3),
    "oz": Unit("oz", "kg", POUND / 16),
    "kg/s": Unit("kg/s", "kg/s"),
    "g/s": Unit("g/s", "kg/s", 1e-3),
    "mg/s": Unit("mg/s", "kg/s", 1e-6),
    "kg/hour": Unit("kg/h", "kg/s", 1 / 3600),
    "lb/hour": Unit("lb/h", "kg/s", POUND / 3600),
    "kg/m**3": Unit("kg/m³", "kg/m**3"),
    "lb/ft**3": Unit("lb/ft³", "kg/m**3", POUND / (12 * INCH) ** 3),
    "N": Unit("N", "N"),
    "lbf": Unit("lbf", "N", POUND_FORCE),
    "N/m": Unit("N/m", "N/m"),
    "lbf/inch": Unit("lbf/in", "N/m", POUND_FORCE / INCH),
    "N*m": Unit("N m", "N*m"),
    "foot*lbf": Unit("lbf ft", "N*m", POUND_FORCE * 12 * INCH),
    "Pa": Unit("Pa", "Pa"),
    "kPa": Unit("kPa", "Pa", 1e3),
    "psi": Unit("psi", "Pa", POUND_FORCE / INCH**2),
    "inch_Hg": Unit("inHg", "Pa", 3386.38864034),
    "inch_H2O": Unit("inH₂O", "Pa", 249.08891),
}
"""By Pint's name. Mercury is at 0 °C; water at 4 °C weighs 1000 kg/m³ here, as Pint has it."""

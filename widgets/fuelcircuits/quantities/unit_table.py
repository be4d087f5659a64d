"""The units of spec cards and of benches' dials: a table, so that neither needs a units library.

Factors: NIST Special Publication 811 (2008), appendix B.8, with the pound, the inch and the
standard acceleration of fall exact. A test holds every line to Pint, whose names these are.
"""

from collections.abc import Mapping
from math import pi
from typing import NamedTuple, TypeAlias

__all__ = ["PLAIN", "PREFIXES", "TURNED", "UNITS", "Dimension", "Unit"]

Dimension: TypeAlias = tuple[float, float, float, float]
"""Powers of length, mass, time and temperature."""


class Unit(NamedTuple):
    """A unit: how it is written, of which dimension, how much in SI, where its nought lies."""

    label: str
    dimension: Dimension
    one: float = 1.0
    nought: float = 0.0


PLAIN, RATE = (0.0, 0.0, 0.0, 0.0), (0.0, 0.0, -1.0, 0.0)
LENGTH, VOLUME, SPEED = (1.0, 0.0, 0.0, 0.0), (3.0, 0.0, 0.0, 0.0), (1.0, 0.0, -1.0, 0.0)
MASS, TIME, TEMPERATURE = (0.0, 1.0, 0.0, 0.0), (0.0, 0.0, 1.0, 0.0), (0.0, 0.0, 0.0, 1.0)
FORCE, PRESSURE = (1.0, 1.0, -2.0, 0.0), (-1.0, 1.0, -2.0, 0.0)
ENERGY, POWER, VISCOSITY = (2.0, 1.0, -2.0, 0.0), (2.0, 1.0, -3.0, 0.0), (-1.0, 1.0, -1.0, 0.0)

FALL = 9.80665
INCH, POUND = 0.0254, 0.45359237
GALLON = 231 * INCH**3

TURNED: Mapping[str, Unit] = {
    "m meter metre": Unit("m", LENGTH),
    "g gram": Unit("g", MASS, 1e-3),
    "s second sec": Unit("s", TIME),
    "K kelvin": Unit("K", TEMPERATURE),
    "rad radian": Unit("rad", PLAIN),
    "Hz hertz": Unit("Hz", RATE),
    "N newton": Unit("N", FORCE),
    "Pa pascal": Unit("Pa", PRESSURE),
    "bar": Unit("bar", PRESSURE, 1e5),
    "J joule": Unit("J", ENERGY),
    "W watt": Unit("W", POWER),
    "L l liter litre": Unit("l", VOLUME, 1e-3),
    "P poise": Unit("P", VISCOSITY, 0.1),
}
"""Units that take a prefix, under their names."""

PREFIXES: Mapping[str, tuple[str, float]] = {
    "n nano": ("n", 1e-9),
    "µ μ u micro": ("µ", 1e-6),
    "m milli": ("m", 1e-3),
    "c centi": ("c", 1e-2),
    "d deci": ("d", 1e-1),
    "h hecto": ("h", 1e2),
    "k kilo": ("k", 1e3),
    "M mega": ("M", 1e6),
    "G giga": ("G", 1e9),
}
"""Each with its label and what it multiplies by."""

UNITS: Mapping[str, Unit] = {
    "percent %": Unit("%", PLAIN, 0.01),
    "degree degrees deg °": Unit("°", PLAIN, pi / 180),
    "revolution turn cycle": Unit("turn", PLAIN, 2 * pi),
    "rpm": Unit("rpm", RATE, pi / 30),
    "minute min": Unit("min", TIME, 60.0),
    "hour hr h": Unit("h", TIME, 3600.0),
    "day d": Unit("d", TIME, 86400.0),
    "degC celsius °C": Unit("°C", TEMPERATURE, 1.0, 273.15),
    "degF fahrenheit °F": Unit("°F", TEMPERATURE, 5 / 9, 459.67 * 5 / 9),
    "delta_degC": Unit("°C", TEMPERATURE),
    "delta_degF": Unit("°F", TEMPERATURE, 5 / 9),
    "inch inches in": Unit("in", LENGTH, INCH),
    "thou": Unit("thou", LENGTH, INCH / 1000),
    "foot feet ft": Unit("ft", LENGTH, 12 * INCH),
    "yard yd": Unit("yd", LENGTH, 36 * INCH),
    "mile mi": Unit("mi", LENGTH, 63360 * INCH),
    "micron": Unit("µm", LENGTH, 1e-6),
    "cc": Unit("cm³", VOLUME, 1e-6),
    "gallon gal": Unit("gal", VOLUME, GALLON),
    "quart qt": Unit("qt", VOLUME, GALLON / 4),
    "pint": Unit("pint", VOLUME, GALLON / 8),
    "fluid_ounce floz": Unit("fl oz", VOLUME, GALLON / 128),
    "pound lb": Unit("lb", MASS, POUND),
    "ounce oz": Unit("oz", MASS, POUND / 16),
    "grain": Unit("gr", MASS, POUND / 7000),
    "tonne": Unit("t", MASS, 1e3),
    "pound_force lbf": Unit("lbf", FORCE, POUND * FALL),
    "ounce_force ozf": Unit("ozf", FORCE, POUND * FALL / 16),
    "kilogram_force kgf": Unit("kgf", FORCE, FALL),
    "gram_force gf": Unit("gf", FORCE, FALL / 1000),
    "psi": Unit("psi", PRESSURE, POUND * FALL / INCH**2),
    "inch_Hg inHg in_Hg": Unit("inHg", PRESSURE, 3386.388640341),
    "mmHg mm_Hg millimeter_Hg": Unit("mmHg", PRESSURE, 133.322387415),
    "cmHg": Unit("cmHg", PRESSURE, 1333.22387415),
    "torr": Unit("torr", PRESSURE, 101325 / 760),
    "inch_H2O inH2O in_H2O": Unit("inH₂O", PRESSURE, 249.08891),
    "cmH2O cm_H2O": Unit("cmH₂O", PRESSURE, 10 * FALL),
    "mmH2O mm_H2O millimeter_H2O": Unit("mmH₂O", PRESSURE, FALL),
    "atmosphere atm": Unit("atm", PRESSURE, 101325.0),
    "foot_pound ft_lb": Unit("ft lbf", ENERGY, POUND * FALL * 12 * INCH),
    "calorie cal": Unit("cal", ENERGY, 4.184),
    "kilocalorie kcal": Unit("kcal", ENERGY, 4184.0),
    "horsepower hp": Unit("hp", POWER, POUND * FALL * 12 * INCH * 550),
    "cubic_foot_per_minute cfm": Unit("cfm", (3.0, 0.0, -1.0, 0.0), (12 * INCH) ** 3 / 60),
    "mph": Unit("mph", SPEED, 63360 * INCH / 3600),
    "kph": Unit("km/h", SPEED, 1 / 3.6),
}
"""The others. Mercury is at 0 °C; water at 4 °C weighs 1000 kg/m³ here, as Pint has it."""

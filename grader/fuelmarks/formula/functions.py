"""The functions a formula may call, and the constants it may name."""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from fuelcircuits.errors import between
from fuelcircuits.quantities.drills import diameter_of

__all__ = ["CONSTANTS", "FUNCTIONS", "Constant", "Table"]


@dataclass(frozen=True)
class Constant:
    """A number that every formula may name, in SI, with its unit, its words and its source."""

    value: float
    unit: str
    words: str
    source: str


CONSTANTS: Mapping[str, Constant] = {
    "pi": Constant(math.pi, "", "pi", "mathematics"),
    "g": Constant(9.81, "m/s^2", "the pull of gravity", "ISO 80000-3, rounded"),
    "standard_air_pressure": Constant(101_325.0, "Pa", "the standard barometer", "ISO 2533"),
    "zero_celsius": Constant(273.15, "K", "0 °C", "BIPM, The International System of Units"),
    "water_density": Constant(1000.0, "kg/m^3", "the density of water", "rounded"),
}
"""Constants by name."""


def circle(bore: float) -> float:
    """Return the area of a circle [m2] of a given bore [m]."""
    return math.pi / 4 * bore**2


def bore_of(area: float) -> float:
    """Return the bore [m] of a circle of a given area [m2]."""
    return math.sqrt(4 * area / math.pi)


def drill(number: float) -> float:
    """Return the diameter of a numbered drill [m]."""
    return float(diameter_of(int(number)))


FUNCTIONS: Mapping[str, Callable[[float], float]] = {
    "sqrt": math.sqrt,
    "sin": math.sin,
    "cos": math.cos,
    "tan": math.tan,
    "asin": math.asin,
    "acos": math.acos,
    "exp": math.exp,
    "log": math.log,
    "circle": circle,
    "bore_of": bore_of,
    "drill": drill,
}
"""Functions of one value by name; `log` is the natural one."""


@dataclass(frozen=True)
class Table:
    """A table that a question reads: between its lines, straight lines. All in SI.

    `places` rise; outside of them there is nothing to be read.
    """

    places: tuple[float, ...]
    values: tuple[float, ...]
    place_unit: str
    value_unit: str
    words: str

    def __call__(self, place: float) -> float:
        """Return what the table says at `place`; raise `RangeError` outside of it."""
        between("place in the table", place, self.places[0], self.places[-1])
        last = len(self.places) - 1
        at = next(i for i in range(1, last + 1) if place <= self.places[i])
        low, high = self.places[at - 1], self.places[at]
        share = (place - low) / (high - low)
        return self.values[at - 1] + share * (self.values[at] - self.values[at - 1])

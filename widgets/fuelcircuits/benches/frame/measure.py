"""How a bench shows a number: one scale for the SI side of its switch, one for the US shop side."""

import re
from dataclasses import dataclass
from math import isfinite, isnan
from typing import Any, Literal, TypeAlias, cast

from fuelcircuits.errors import UnitError
from fuelcircuits.quantities.written import unit_in

__all__ = [
    "AIR_FLOW",
    "AIR_FUEL_RATIO",
    "ANGLE",
    "AREA",
    "DENSITY",
    "FINE_SHARE",
    "FLOW",
    "FORCE",
    "LENGTH",
    "MINUTES",
    "NUMBER",
    "PRESSURE",
    "RATIO",
    "SECONDS",
    "SHARE",
    "SMALL_LENGTH",
    "SMALL_MASS",
    "SMALL_PRESSURE",
    "SPEED",
    "TEMPERATURE",
    "TORQUE",
    "VACUUM",
    "VOLUME",
    "Measure",
    "Scale",
    "System",
    "Value",
    "both",
    "measure",
    "parted",
]

System = Literal["SI", "US"]
Value: TypeAlias = Any
"""A number of the model, or in a run a list with one for each time."""
_BOTH: Any = "SI and US"
_PAIR = re.compile("\x01(.*?)\x02(.*?)\x03")


@dataclass(frozen=True)
class Scale:
    """A unit on a dial: shown = factor * SI value + offset, with so many digits after the point."""

    unit: str
    factor: float
    offset: float
    digits: int

    def show(self, value: float) -> float:
        """Return the SI `value` in this unit."""
        return self.factor * value + self.offset

    def number(self, value: float) -> str:
        """Return the SI `value` as text without its unit: never a negative nought, – for none."""
        if not isfinite(value):
            return "–"
        return f"{round(self.show(value), self.digits) + 0.0:.{self.digits}f}"

    def text(self, value: float) -> str:
        """Return the SI `value` as text with its unit (2.1 mm, 14.8°), or a dash for none."""
        if isnan(value):
            return "–"
        space = "" if self.unit == "°" else " "
        return f"{self.number(value)}{space}{self.unit}".rstrip()

    def wire(self) -> dict[str, Any]:
        """Return the scale as the browser takes it."""
        return {
            "unit": self.unit,
            "factor": self.factor,
            "offset": self.offset,
            "digits": self.digits,
        }


@dataclass(frozen=True)
class Measure:
    """A kind of quantity, with the scale of each side of the switch.

    `beside` is a second SI unit that the trade reads as well, shown in brackets.
    """

    metric: Scale
    shop: Scale
    beside: Scale | None = None

    def scale(self, system: System) -> Scale:
        """Return the scale for "SI" or "US"."""
        return self.metric if system == "SI" else self.shop

    def text(self, value: float, system: System, brief: bool = True) -> str:
        """Return the SI `value` as text with its unit, and unless `brief` the one beside it."""
        if system == _BOTH:
            return f"\x01{self.text(value, 'SI', brief)}\x02{self.text(value, 'US', brief)}\x03"
        if system == "SI" and self.beside and not brief and not isnan(value):
            return f"{self.metric.text(value)} ({self.beside.text(value)})"
        return self.scale(system).text(value)

    def wire(self) -> dict[str, Any]:
        """Return both scales, and the one beside, as the browser takes them."""
        sides = {"SI": self.metric.wire(), "US": self.shop.wire()}
        return sides | ({"beside": self.beside.wire()} if self.beside else {})


def both() -> System:
    """Return a system in which every quantity is told twice, to be `parted` later."""
    return cast(System, _BOTH)


def parted(text: str) -> dict[str, str]:
    """Return a sentence told in `both` systems as it is in each."""
    return {"SI": _PAIR.sub(r"\1", text), "US": _PAIR.sub(r"\2", text)}


def measure(
    si: str,
    metric: tuple[str, int],
    shop: tuple[str, int],
    beside: tuple[str, int] | None = None,
) -> Measure:
    """Return the measure of a quantity held in `si`; each side is a unit, and digits.

    Raises
    ------
    UnitError
        If a unit is not in the table of units, or is of another dimension than `si`.
    """
    return Measure(_scale(si, *metric), _scale(si, *shop), _scale(si, *beside) if beside else None)


def _scale(si: str, unit: str, digits: int) -> Scale:
    held, shown = unit_in(si), unit_in(unit)
    if shown.dimension != held.dimension:
        raise UnitError(f"unit on a dial must be convertible to {si}, got {unit}")
    offset = (held.nought - shown.nought) / shown.one
    return Scale(shown.label, held.one / shown.one, offset, digits)


PRESSURE = measure("Pa", ("kPa", 1), ("psi", 2))
LENGTH = measure("m", ("mm", 1), ("inch", 3))
SMALL_LENGTH = measure("m", ("mm", 2), ("inch", 4))
FLOW = measure("kg/s", ("g/s", 2), ("lb/hour", 1), beside=("kg/hour", 1))
FORCE = measure("N", ("N", 3), ("lbf", 4))
SMALL_MASS = measure("kg", ("g", 1), ("oz", 2))
TEMPERATURE = measure("K", ("degC", 0), ("degF", 0))
SHARE = measure("dimensionless", ("percent", 0), ("percent", 0))
FINE_SHARE = measure("dimensionless", ("percent", 1), ("percent", 1))
DENSITY = measure("kg/m**3", ("kg/m**3", 0), ("lb/ft**3", 1))
RATIO = measure("dimensionless", ("dimensionless", 3), ("dimensionless", 3))
AIR_FUEL_RATIO = measure("dimensionless", ("dimensionless", 1), ("dimensionless", 1))
VACUUM = measure("Pa", ("kPa", 1), ("inch_Hg", 1))
SMALL_PRESSURE = measure("Pa", ("Pa", 0), ("inch_H2O", 2))
AIR_FLOW = measure("kg/s", ("g/s", 1), ("lb/hour", 0))
SPEED = measure("rad/s", ("rpm", 0), ("rpm", 0))
ANGLE = measure("rad", ("degree", 1), ("degree", 1))
TORQUE = measure("N*m", ("N*m", 1), ("lbf*foot", 1))
AREA = measure("m**2", ("mm**2", 2), ("inch**2", 5))
VOLUME = measure("m**3", ("cm**3", 2), ("floz", 3))
SECONDS = measure("s", ("s", 1), ("s", 1))
MINUTES = measure("s", ("minute", 1), ("minute", 1))
NUMBER = measure("dimensionless", ("dimensionless", 0), ("dimensionless", 0))

"""Where a car was read and on what, as its owner writes it down: height, air, fuel."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple

from fuelcircuits.errors import CircuitError, RangeError, UnitError
from fuelcircuits.quantities.number_text import parts
from fuelcircuits.quantities.written import spelt_unit, unit_in

__all__ = ["PLACE", "Place", "placed"]


class Place(NamedTuple):
    """One thing that is asked."""

    label: str
    unit: str
    """In which a number alone is taken."""
    one: float = 1.0
    """What that unit is in a round of `fuelcircuits.own_car.rounds`."""

    def shown(self, kept: float) -> str:
        """Return what a round keeps as somebody would write it."""
        return f"{kept / self.one:g}"


PLACE: Mapping[str, Place] = MappingProxyType(
    {
        "altitude": Place("Height above the sea [m]", "m"),
        "temperature": Place("Temperature of the air [°C]", "degC"),
        "ethanol": Place("Ethanol in the fuel [%]", "%", 0.01),
    }
)
"""What is asked, by its name in a round."""


def placed(name: str, text: str) -> float:
    """Return what somebody wrote, as a round keeps it.

    Raises
    ------
    RangeError
        If there is no number, or it has a unit of another kind.
    """
    asked = PLACE[name]
    wanted = unit_in(asked.unit)
    try:
        numbers, unit, _ = parts(text)
        found = spelt_unit(unit or asked.unit)
        if found.dimension != wanted.dimension:
            raise UnitError(unit)
    except CircuitError:
        raise RangeError(f"{asked.label} must be a number, got {text.strip()!r}") from None
    return asked.one * (numbers[0] * found.one + found.nought - wanted.nought) / wanted.one

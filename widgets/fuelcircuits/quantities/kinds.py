"""Say in plain words what kind of quantity a dimension is: a force, a pressure, a length."""

from collections.abc import Mapping
from functools import lru_cache
from typing import NamedTuple, TypeAlias

from fuelcircuits.quantities.registry import registry
from fuelcircuits.quantities.trade_units import trade_unit

__all__ = ["Dimension", "Kind", "dimension_of", "kind_of"]

Dimension: TypeAlias = tuple[tuple[str, float], ...]


class Kind(NamedTuple):
    """A kind of quantity, and the units the trade uses for it."""

    words: str
    examples: str


KINDS: Mapping[str, Kind] = {
    "": Kind("a plain number", "no unit"),
    "N": Kind("a force", "N or lbf"),
    "kg": Kind("a mass", "g, kg or lb"),
    "m": Kind("a length", "mm or in"),
    "m^2": Kind("an area", "mm² or in²"),
    "m^3": Kind("a volume", "cm³, l or in³"),
    "s": Kind("a time", "s or min"),
    "K": Kind("a temperature", "degC or degF"),
    "Pa": Kind("a pressure", "kPa, psi or inHg"),
    "kg/m^3": Kind("a density", "kg/m³ or lb/ft³"),
    "N/m^3": Kind("a weight for each unit of volume", "N/m³ or lbf/ft³"),
    "kg/s": Kind("a mass flow", "g/s, kg/h or lb/h"),
    "m^3/s": Kind("a volume flow", "cm³/min, l/h or gal/h"),
    "m/s": Kind("a speed", "m/s or ft/s"),
    "m/s^2": Kind("an acceleration", "m/s² or ft/s²"),
    "N*m": Kind("a moment", "N·mm or lbf·in"),
    "N/m": Kind("a stiffness", "N/mm or lbf/in"),
    "W": Kind("a power", "kW or hp"),
    "1/s": Kind("a number for each second", "1/s or 1/min"),
    "Pa*s": Kind("a viscosity", "mPa·s"),
    "kg^0.5*m^0.5/s": Kind("the square root of a force", "N^0.5"),
}


@lru_cache(maxsize=256)
def dimension_of(unit: str) -> Dimension:
    """Return the dimension of `unit`; raise `UnitError` if it is not known."""
    powers = registry.get_dimensionality(trade_unit(unit))
    named = ((name, round(float(str(power)), 6)) for name, power in powers.items())
    return tuple(sorted((name, power) for name, power in named if power))


@lru_cache(maxsize=256)
def kind_of(dimension: Dimension) -> Kind:
    """Return the words for `dimension`; spell it out if it has no name of its own."""
    for unit, kind in KINDS.items():
        if dimension_of(unit) == dimension:
            return kind
    spelt = " ".join(f"{name.strip('[]')}^{power:g}" for name, power in dimension)
    return Kind(f"something else ({spelt})", "other units")

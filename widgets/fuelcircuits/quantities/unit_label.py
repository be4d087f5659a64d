"""Write a unit the way people in the trade do: ``mm²``, ``kg/m³``, ``inHg``, ``°C``."""

from collections.abc import Iterable, Mapping
from functools import cache
from typing import Any

import pint

from fuelcircuits.quantities.units import registry

__all__ = ["unit_label"]

RAISED = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")
OWN: Mapping[str, str] = {
    "degree": "°",
    "degree_Celsius": "°C",
    "degree_Fahrenheit": "°F",
    "delta_degree_Celsius": "°C",
    "delta_degree_Fahrenheit": "°F",
    "fluid_ounce": "fl oz",
    "inch_H2O": "inH2O",
    "millimeter_H2O": "mmH2O",
    "revolutions_per_minute": "rpm",
    "thou": "thou",
}
"""Labels that differ from the registry's symbols."""


def unit_label(unit: Any) -> str:
    """Return the label of a unit of the registry; nothing for a plain number."""
    powers: Mapping[str, float] = dict(unit._units)
    above = _product((name, power) for name, power in powers.items() if power > 0)
    below = [(name, -power) for name, power in powers.items() if power < 0]
    if not below:
        return above
    bracket = "({})" if len(below) > 1 else "{}"
    return f"{above or '1'}/{bracket.format(_product(below))}"


def _product(factors: Iterable[tuple[str, float]]) -> str:
    """Return names and powers as one product."""
    return "·".join(f"{_symbol(name)}{_raised(power)}" for name, power in factors)


def _raised(power: float) -> str:
    """Return `power` as raised digits; a broken one with a sign, ``^0.5``."""
    if power == 1:
        return ""
    return f"{power:g}".translate(RAISED) if float(power).is_integer() else f"^{float(power):g}"


@cache
def _symbol(name: str) -> str:
    """Return the trade's symbol of a unit, or its name where there is none."""
    try:
        return OWN.get(name) or str(registry.get_symbol(name))
    except pint.UndefinedUnitError:
        return name

"""Write a unit the way people in the trade do: ``mm²``, ``kg/m³``, ``inHg``, ``°C``."""

from collections.abc import Callable, Iterable, Mapping
from typing import Any

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
    symbol_of = unit._REGISTRY.get_symbol
    symbols = {name: OWN.get(name) or _symbol(name, symbol_of) for name in powers}
    above = _product((symbols[name], power) for name, power in powers.items() if power > 0)
    below = [(symbols[name], -power) for name, power in powers.items() if power < 0]
    if not below:
        return above
    bracket = "({})" if len(below) > 1 else "{}"
    return f"{above or '1'}/{bracket.format(_product(below))}"


def _product(factors: Iterable[tuple[str, float]]) -> str:
    """Return symbols and powers as one product."""
    return "·".join(f"{symbol}{_raised(power)}" for symbol, power in factors)


def _raised(power: float) -> str:
    """Return `power` as raised digits; a broken one with a sign, ``^0.5``."""
    if power == 1:
        return ""
    return f"{power:g}".translate(RAISED) if float(power).is_integer() else f"^{float(power):g}"


def _symbol(name: str, symbol_of: Callable[[str], object]) -> str:
    """Return the trade's symbol of a unit, or its name where there is none."""
    try:
        return str(symbol_of(name))
    except AttributeError:  # as Pint says that it knows no such name
        return name

"""Units as people in the trade write them: ``lb per hour``, ``in Hg``, ``sq in``, ``kg**0.5``.

Pint is asked about single names only, never to parse a whole text.
"""

import re
from functools import lru_cache
from typing import Any, NamedTuple

import pint

from fuelcircuits.errors import UnitError
from fuelcircuits.quantities.grammar import LONGEST, Powers, lowered, powers_in
from fuelcircuits.quantities.unit_label import unit_label
from fuelcircuits.quantities.units import registry

__all__ = ["Scale", "labelled", "scale", "trade_unit"]

PHRASES = tuple(
    (re.compile(pattern, re.IGNORECASE), replacement)
    for pattern, replacement in (
        (r"\bin(?:ch(?:es)?)?\.?\s*(?:of\s+)?(?:hg|mercury)\b", " inch_Hg "),
        (r"\bin(?:ch(?:es)?)?\.?\s*(?:of\s+)?(?:h2o|water|w\.?[cg]\.?)(?![\w.])", " inch_H2O "),
        (r"\bmm\s*(?:of\s+)?(?:hg|mercury)\b", " millimeter_Hg "),
        (r"\bmm\s*(?:of\s+)?(?:h2o|water|w\.?[cg]\.?)(?![\w.])", " millimeter_H2O "),
        (
            r"\b(?:lbs?|pounds?)\s*(?:/|\bper\b)\s*(?:sq\.?\s*in\b\.?|square\s+inch\b|in\^?2\b)",
            " psi ",
        ),
        (r"\b(?:us\s+)?gal(?:lons?)?\b\.?", " gallon "),
        (r"\b(?:fl\.?|fluid)\s*(?:oz\b\.?|ounces?\b)", " fluid_ounce "),
        (r"\b(?:cu\.?|cubic)\s+([a-z]+)\b\.?", r" \1^3 "),
        (r"\b(?:sq\.?|square)\s+([a-z]+)\b\.?", r" \1^2 "),
        (r"\bper\b", "/"),
    )
)

OVERRULED = {
    '"': "inch",
    "''": "inch",
    "'": "foot",
    "C": "degC",
    "F": "degF",
    "PA": "pascal",
    "pa": "pascal",
    "Nm": "newton*meter",
    "MM": "millimeter",
    "cfm": "foot^3/minute",
    "c": "degC",
    "gr": "gram",
    "mil": "thou",
    "mils": "thou",
}
"""Spellings that Pint takes for something else: coulomb, farad, picoyear, megamolar, centifermi."""

SPELLINGS = {
    "%": "percent",
    "°": "degree",
    "°c": "degC",
    "°f": "degF",
    "c": "degC",
    "ccm": "centimeter^3",
    "cfm": "foot^3/minute",
    "cid": "inch^3",
    "cuft": "foot^3",
    "cuin": "inch^3",
    "f": "degF",
    "gph": "gallon/hour",
    "gpm": "gallon/minute",
    "hpa": "hectopascal",
    "inhg": "inch_Hg",
    "inh2o": "inch_H2O",
    "kgs": "kilogram",
    "kp": "force_kilogram",
    "kpa": "kilopascal",
    "lbm": "pound",
    "lph": "liter/hour",
    "n": "newton",
    "nm": "newton*meter",
    "pa": "pascal",
    "pph": "pound/hour",
    "sqin": "inch^2",
    "sqmm": "millimeter^2",
}
"""Spellings, in small letters, that Pint does not know."""


@lru_cache(maxsize=1024)
def trade_unit(text: str) -> Any:
    """Return `text` as a unit of the registry; raise `UnitError` naming what is not known."""
    if len(text) > LONGEST:
        raise UnitError(f"unit must be at most {LONGEST} characters, got {len(text)}")
    text = lowered(text)
    for pattern, replacement in PHRASES:
        text = pattern.sub(replacement, text)
    powers = _multiplicative(powers_in(text, _named))
    return registry.Unit(registry.UnitsContainer(powers))


class Scale(NamedTuple):
    """A unit's way to SI: ``SI value = factor * value + offset``, and how it is written."""

    factor: float
    offset: float
    name: str
    short: str

    @property
    def degrees(self) -> bool:
        """Whether the unit is a point on a temperature scale, such as degC."""
        return self.offset != 0


@lru_cache(maxsize=1024)
def scale(text: str) -> Scale:
    """Return the way from the unit `text` to SI; raise `UnitError` if there is none."""
    unit = trade_unit(text)
    try:
        offset, one = (
            float(registry.Quantity(value, unit).to_base_units().magnitude) for value in (0.0, 1.0)
        )
    except (pint.PintError, ArithmeticError) as error:
        raise UnitError(f"unit must be one a number can have, got {text!r}") from error
    return Scale(one - offset, offset, str(unit), unit_label(unit))


def labelled(number: str, unit: str) -> str:
    """Return a number with its unit as people write it, ``12.6 mm²``; never raise.

    A unit nobody knows stands as it is, cut short.
    """
    try:
        label = unit_label(trade_unit(unit))
    except UnitError:
        label = unit[:40]
    return f"{number}{'' if label == '°' else ' '}{label}".strip()


def _named(name: str) -> Powers:
    """Return the registry's own name for `name`, or what the trade means by it, with powers."""
    name = name.rstrip(".").replace(" ", "")
    small = name.lower()
    for known in (OVERRULED.get(name), _registered(name), SPELLINGS.get(small), _registered(small)):
        if known:
            return {known: 1.0} if known == _registered(known) else powers_in(known, _named)
    digits = re.fullmatch(r"(.*[^\d_])([2-9])", name)
    if digits:
        return {base: power * int(digits[2]) for base, power in _named(digits[1]).items()}
    raise UnitError(f"unit must be one the course knows, got {name!r}")


def _registered(name: str) -> str | None:
    """Return the registry's full name for `name`, or None if it knows none."""
    if not re.fullmatch(r"[^\W\d]\w{0,39}|°[CF]", name):
        return None
    try:
        return str(registry.get_name(name)) or None
    except pint.UndefinedUnitError:
        return None


def _multiplicative(powers: Powers) -> Powers:
    """Return `powers` with a temperature scale in a product read as a difference."""
    if len(powers) == 1 and set(powers.values()) == {1.0}:
        return powers
    return {
        f"delta_{name}" if name in ("degree_Celsius", "degree_Fahrenheit") else name: power
        for name, power in powers.items()
    }

"""Units as people in the trade write them: ``lb per hour``, ``in Hg``, ``sq in``, ``kg**0.5``.

Which single names there are is asked of `Known`; nothing else is ever given a whole text.
"""

import re
from collections.abc import Callable
from difflib import get_close_matches
from typing import TypeAlias

from fuelcircuits.errors import UnitError
from fuelcircuits.quantities.grammar import LONGEST, Powers, lowered, powers_in

__all__ = ["Known", "trade_powers"]

Known: TypeAlias = Callable[[str], str | None]
"""Gives the full name of a unit, or None if there is none of that name."""

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

USUAL = (
    *("Pa", "hPa", "kPa", "MPa", "mPa", "bar", "mbar", "psi", "inHg", "mmHg", "inH2O", "mmH2O"),
    *("m", "cm", "mm", "inch", "thou", "ft", "mm2", "cm2", "in2", "mm3", "cm3", "in3", "ml", "l"),
    *("gallon", "kg", "g", "mg", "lb", "oz", "N", "mN", "kN", "lbf", "s", "min", "hour", "rpm"),
    *("degC", "degF", "K", "deg", "percent", "kW", "hp", "g/s", "kg/h", "lb/h", "cfm", "thou"),
)
"""What people mean who misspell a unit."""


def trade_powers(text: str, known: Known) -> dict[str, float]:
    """Return the names and powers of the unit `text`; raise `UnitError` at what is not known."""
    if len(text) > LONGEST:
        raise UnitError(f"unit must be at most {LONGEST} characters, got {len(text)}")
    text = lowered(text)
    for pattern, replacement in PHRASES:
        text = pattern.sub(replacement, text)
    return _multiplicative(powers_in(text, lambda name: _named(name, known)))


def _named(name: str, known: Known) -> Powers:
    """Return the full name of the unit `name`, or what the trade means by it, with powers."""
    name = name.rstrip(".").replace(" ", "")
    small = name.lower()
    for full in (OVERRULED.get(name), known(name), SPELLINGS.get(small), known(small)):
        if full and full == known(full):
            return {full: 1.0}
        if full:
            return powers_in(full, lambda each: _named(each, known))
    digits = re.fullmatch(r"(.*[^\d_])([2-9])", name)
    if digits:
        return {base: power * int(digits[2]) for base, power in _named(digits[1], known).items()}
    raise UnitError(f"unit must be one the course knows, got {name!r}{_perhaps(small)}")


def _perhaps(small: str) -> str:
    """Return what somebody who wrote `small` perhaps meant, or nothing."""
    same = [unit for unit in USUAL if unit.lower() == small]
    by_small = {unit.lower(): unit for unit in USUAL}
    near = same or [by_small[one] for one in get_close_matches(small[:40], by_small, cutoff=0.7)]
    return f"; write {' or '.join(near[:2])}" if near else ""


def _multiplicative(powers: Powers) -> dict[str, float]:
    """Return `powers` with a temperature scale in a product read as a difference."""
    if len(powers) == 1 and set(powers.values()) == {1.0}:
        return dict(powers)
    return {
        f"delta_{name}" if name in ("degree_Celsius", "degree_Fahrenheit") else name: power
        for name, power in powers.items()
    }

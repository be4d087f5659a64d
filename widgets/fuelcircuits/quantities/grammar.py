"""Units as people in the trade write them, read by a small grammar of our own.

A unit is a product of names with powers: ``lb/h``, ``kg/m^3``, ``in Hg``, ``kg**0.5/m**1.5``.
Which single names there are is asked of `Known`; nothing else is ever given a whole text, and
lengths and powers have limits, so that no text can keep a reader busy.
"""

import re
from collections.abc import Callable
from difflib import get_close_matches
from typing import TypeAlias

from fuelcircuits.errors import UnitError

__all__ = ["Known", "lowered", "powers_in"]

Known: TypeAlias = Callable[[str], str | None]
"""Gives the full name of a unit, or None if there is none of that name."""
RAISED = str.maketrans("⁻⁺⁰¹²³⁴⁵⁶⁷⁸⁹", "-+0123456789")
LONGEST = 160
HIGHEST_POWER = 12.0

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

TOKEN = re.compile(
    r"\s*(?:(?P<name>[^\W\d]\w*\.?|°\s?[CFcf]\b|[°%\"]|'{1,2})"
    r"|(?P<power>(?:\*\*|\^)\s*\(?\s*[+-]?\d{1,2}(?:\.\d{1,20})?\s*\)?)"
    r"|(?P<sign>[*/·⋅()]|1(?=\s*/)))"
)


def powers_in(text: str, known: Known) -> dict[str, float]:
    """Return the names and powers of the unit `text`; raise `UnitError` at what is not known."""
    if len(text) > LONGEST:
        raise UnitError(f"unit must be at most {LONGEST} characters, got {len(text)}")
    text = lowered(text)
    for pattern, replacement in PHRASES:
        text = pattern.sub(replacement, text)
    tokens = _tokens(text)[::-1]
    powers = _product(tokens, known) if tokens else {}
    if tokens:
        raise UnitError(f"unit must close its brackets, got {text!r}")
    return _multiplicative(powers)


def lowered(text: str) -> str:
    """Return `text` with raised digits as powers: ``m³`` as ``m^3``."""
    return re.sub(r"[⁻⁺]?[⁰¹²³⁴⁵⁶⁷⁸⁹]+", lambda hit: "^" + hit[0].translate(RAISED), text)


def _tokens(text: str) -> list[tuple[str, str]]:
    """Return `text` cut into (kind, token), or raise `UnitError` at the first strange sign."""
    tokens, place = [], 0
    text = text.strip()
    text = "" if text in ("1", "dimensionless") else text
    while place < len(text):
        found = TOKEN.match(text, place)
        if not found:
            raise UnitError(f"unit must be made of names and powers, got {text[place:]!r}")
        kind = str(found.lastgroup)
        tokens.append((kind, found[kind].strip()))
        place = found.end()
    return tokens


def _product(tokens: list[tuple[str, str]], known: Known, depth: int = 0) -> dict[str, float]:
    """Take a product off the end of the reversed `tokens` and return its names and powers."""
    powers = _factor(tokens, known, depth)
    while tokens and tokens[-1] != ("sign", ")"):
        direction = 1.0
        if tokens[-1][1] in "*/·⋅":
            direction = -1.0 if tokens.pop()[1] == "/" else 1.0
        for name, power in _factor(tokens, known, depth).items():
            powers[name] = powers.get(name, 0.0) + direction * power
    if any(abs(power) > HIGHEST_POWER for power in powers.values()):
        raise UnitError(f"unit must have powers up to {HIGHEST_POWER:g}")
    return powers


def _factor(tokens: list[tuple[str, str]], known: Known, depth: int) -> dict[str, float]:
    """Take one name or bracket with its power off the end of `tokens`."""
    kind, token = tokens.pop() if tokens else ("end", "nothing")
    if kind == "name":
        powers = _named(token, known)
    elif token == "1":
        powers = {}
    elif token == "(" and depth < 8:
        powers = _product(tokens, known, depth + 1)
        if not tokens or tokens.pop()[1] != ")":
            raise UnitError("unit must close its brackets")
    else:
        raise UnitError(f"unit must have a name here, got {token!r}")
    if tokens and tokens[-1][0] == "power":
        power = float(re.sub(r"[*^()\s]", "", tokens.pop()[1]))
        powers = {name: power * old for name, old in powers.items()}
    return powers


def _named(name: str, known: Known) -> dict[str, float]:
    """Return the full name of the unit `name`, or what the trade means by it, with powers."""
    name = name.rstrip(".").replace(" ", "")
    small = name.lower()
    for full in (OVERRULED.get(name), known(name), SPELLINGS.get(small), known(small)):
        if full:
            return {full: 1.0} if full == known(full) else _product(_tokens(full)[::-1], known)
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


def _multiplicative(powers: dict[str, float]) -> dict[str, float]:
    """Return `powers` with a temperature scale in a product read as a difference."""
    if len(powers) == 1 and set(powers.values()) == {1.0}:
        return powers
    return {
        f"delta_{name}" if name in ("degree_Celsius", "degree_Fahrenheit") else name: power
        for name, power in powers.items()
    }

"""Units as people in the trade write them, read by a small grammar of our own.

A unit is a product of names with powers: ``lb/h``, ``kg/m^3``, ``in Hg``, ``kg**0.5/m**1.5``.
Pint is asked about single names only, never to parse a whole text, and lengths and powers
have limits, so that no text can keep a reader busy.
"""

import re
from functools import lru_cache
from typing import Any, NamedTuple

import pint

from fuelcircuits.errors import UnitError
from fuelcircuits.quantities.unit_label import unit_label
from fuelcircuits.quantities.units import registry

__all__ = ["Scale", "labelled", "lowered", "scale", "trade_unit"]

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

TOKEN = re.compile(
    r"\s*(?:(?P<name>[^\W\d]\w*\.?|°\s?[CFcf]\b|[°%\"]|'{1,2})"
    r"|(?P<power>(?:\*\*|\^)\s*\(?\s*[+-]?\d{1,2}(?:\.\d{1,20})?\s*\)?)"
    r"|(?P<sign>[*/·⋅()]|1(?=\s*/)))"
)


@lru_cache(maxsize=1024)
def trade_unit(text: str) -> Any:
    """Return `text` as a unit of the registry; raise `UnitError` naming what is not known."""
    if len(text) > LONGEST:
        raise UnitError(f"unit must be at most {LONGEST} characters, got {len(text)}")
    text = lowered(text)
    for pattern, replacement in PHRASES:
        text = pattern.sub(replacement, text)
    tokens = _tokens(text)[::-1]
    powers = _product(tokens) if tokens else {}
    if tokens:
        raise UnitError(f"unit must close its brackets, got {text!r}")
    return registry.Unit(registry.UnitsContainer(_multiplicative(powers)))


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


def _product(tokens: list[tuple[str, str]], depth: int = 0) -> dict[str, float]:
    """Take a product off the end of the reversed `tokens` and return its names and powers."""
    powers = _factor(tokens, depth)
    while tokens and tokens[-1] != ("sign", ")"):
        direction = 1.0
        if tokens[-1][1] in "*/·⋅":
            direction = -1.0 if tokens.pop()[1] == "/" else 1.0
        for name, power in _factor(tokens, depth).items():
            powers[name] = powers.get(name, 0.0) + direction * power
    if any(abs(power) > HIGHEST_POWER for power in powers.values()):
        raise UnitError(f"unit must have powers up to {HIGHEST_POWER:g}")
    return powers


def _factor(tokens: list[tuple[str, str]], depth: int) -> dict[str, float]:
    """Take one name or bracket with its power off the end of `tokens`."""
    kind, token = tokens.pop() if tokens else ("end", "nothing")
    if kind == "name":
        powers = _named(token)
    elif token == "1":
        powers = {}
    elif token == "(" and depth < 8:
        powers = _product(tokens, depth + 1)
        if not tokens or tokens.pop()[1] != ")":
            raise UnitError("unit must close its brackets")
    else:
        raise UnitError(f"unit must have a name here, got {token!r}")
    if tokens and tokens[-1][0] == "power":
        power = float(re.sub(r"[*^()\s]", "", tokens.pop()[1]))
        powers = {name: power * old for name, old in powers.items()}
    return powers


def _named(name: str) -> dict[str, float]:
    """Return the registry's own name for `name`, or what the trade means by it, with powers."""
    name = name.rstrip(".").replace(" ", "")
    small = name.lower()
    for known in (OVERRULED.get(name), _registered(name), SPELLINGS.get(small), _registered(small)):
        if known:
            return {known: 1.0} if known == _registered(known) else _product(_tokens(known)[::-1])
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


def _multiplicative(powers: dict[str, float]) -> dict[str, float]:
    """Return `powers` with a temperature scale in a product read as a difference."""
    if len(powers) == 1 and set(powers.values()) == {1.0}:
        return powers
    return {
        f"delta_{name}" if name in ("degree_Celsius", "degree_Fahrenheit") else name: power
        for name, power in powers.items()
    }

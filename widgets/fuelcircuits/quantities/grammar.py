"""How a unit is written: a product of names with powers, ``lb/h``, ``kg/m^3``, ``J/(kg*K)``.

What a name stands for is not known here. Lengths and powers have limits, so that no text can
keep a reader busy.
"""

import re
from collections.abc import Callable, Mapping
from typing import TypeAlias

from fuelcircuits.errors import UnitError

__all__ = ["LONGEST", "Powers", "lowered", "powers_in"]

Powers: TypeAlias = Mapping[str, float]
LONGEST = 160
HIGHEST_POWER = 12.0
DEEPEST = 8
RAISED = str.maketrans("⁻⁺⁰¹²³⁴⁵⁶⁷⁸⁹", "-+0123456789")
TOKEN = re.compile(
    r"\s*(?:(?P<name>[^\W\d]\w*\.?|°\s?[CFcf]\b|[°%\"]|'{1,2})"
    r"|(?P<power>(?:\*\*|\^)\s*\(?\s*[+-]?\d{1,2}(?:\.\d{1,20})?\s*\)?)"
    r"|(?P<sign>[*/·⋅()]|1(?=\s*/)))"
)


def lowered(text: str) -> str:
    """Return `text` with raised digits as powers: ``m³`` as ``m^3``."""
    return re.sub(r"[⁻⁺]?[⁰¹²³⁴⁵⁶⁷⁸⁹]+", lambda hit: "^" + hit[0].translate(RAISED), text)


def powers_in(text: str, named: Callable[[str], Powers]) -> Powers:
    """Return the names in the unit `text` with their powers.

    Parameters
    ----------
    text
        The unit; nothing, "1" and "dimensionless" are a plain number.
    named
        Returns what a single name stands for: itself, or other names with powers. It raises
        `UnitError` for a name that it does not know.

    Raises
    ------
    UnitError
        If the text is too long, or is no product of names and powers.
    """
    if len(text) > LONGEST:
        raise UnitError(f"unit must be at most {LONGEST} characters, got {len(text)}")
    tokens = _tokens(text)[::-1]
    powers = _product(tokens, named) if tokens else {}
    if tokens:
        raise UnitError(f"unit must close its brackets, got {text!r}")
    return powers


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


def _product(
    tokens: list[tuple[str, str]], named: Callable[[str], Powers], depth: int = 0
) -> Powers:
    """Take a product off the end of the reversed `tokens` and return its names and powers."""
    powers = dict(_factor(tokens, named, depth))
    while tokens and tokens[-1] != ("sign", ")"):
        direction = 1.0
        if tokens[-1][1] in "*/·⋅":
            direction = -1.0 if tokens.pop()[1] == "/" else 1.0
        for name, power in _factor(tokens, named, depth).items():
            powers[name] = powers.get(name, 0.0) + direction * power
    if any(abs(power) > HIGHEST_POWER for power in powers.values()):
        raise UnitError(f"unit must have powers up to {HIGHEST_POWER:g}")
    return powers


def _factor(tokens: list[tuple[str, str]], named: Callable[[str], Powers], depth: int) -> Powers:
    """Take one name or bracket with its power off the end of `tokens`."""
    kind, token = tokens.pop() if tokens else ("end", "nothing")
    if kind == "name":
        powers = named(token)
    elif token == "1":
        powers = {}
    elif token == "(" and depth < DEEPEST:
        powers = _product(tokens, named, depth + 1)
        if not tokens or tokens.pop()[1] != ")":
            raise UnitError("unit must close its brackets")
    else:
        raise UnitError(f"unit must have a name here, got {token!r}")
    if tokens and tokens[-1][0] == "power":
        power = float(re.sub(r"[*^()\s]", "", tokens.pop()[1]))
        powers = {name: power * old for name, old in powers.items()}
    return powers

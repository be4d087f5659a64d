"""The number and the unit of a value as people write it, before the unit is known.

``1 234.5 Pa``, ``1.2 x 10^-3 kg/s``, ``1-1/4 in``, ``5 psi gauge``. The text may come from
anybody: whatever it holds, reading it is quick, and ends in numbers or in a `UnitError`.
"""

import re
from typing import Literal, TypeAlias

from fuelcircuits.errors import UnitError
from fuelcircuits.quantities.grammar import lowered

__all__ = ["LONGEST", "Stated", "parts"]

LONGEST = 200
Stated: TypeAlias = Literal["", "absolute", "gauge", "vacuum", "difference"]

SIGNS = str.maketrans(
    {"−": "-", "–": "-", "\u00a0": " ", "\u2009": " ", "\u202f": " ", "’": "'", "×": "x"}
    | {"·": "*", "⋅": "*", "μ": "µ", "º": "°", "“": '"', "”": '"', "″": '"', "′": "'"}
    | {"½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8"}
)

FRACTION = re.compile(
    r"\s*([+-]?)\s*(?:(\d{1,4})(?:\s+|\s?-\s?))?(\d{1,4})\s?/\s?(\d{1,4})(?![\d.,])"
)
DECIMAL = re.compile(
    r"\s*([+-]?)\s*(\d+(?:[ '_]\d{3})+(?!\d)(?:[.,]\d+)?|\d+(?:[.,]\d+)*[.,]?|[.,]\d+)"
    r"(?:\s*(?:e|E|[x*]\s*10\s*(?:\^|\*\*)\s*)([+-]?\d{1,3})(?!\d))?"
)
STATED: tuple[tuple[re.Pattern[str], Stated], ...] = (
    (re.compile(r"\s*\(?\b(?:abs|absolute)\)?\.?$|(?<=psi|bar)a$|(?<=Pa)a$"), "absolute"),
    (re.compile(r"\s*\(?\bgau?ge\)?$|\s*\(g\)$|(?<=psi|bar)g$|(?<=Pa)g$"), "gauge"),
    (re.compile(r"\s*\(?\b(?:vac|vacuum)\)?\.?$"), "vacuum"),
)


def parts(text: str) -> tuple[tuple[float, ...], str, Stated]:
    """Return the numbers that `text` can mean, its unit as it stands, and from where it counts.

    Raises
    ------
    UnitError
        If there is no number.
    """
    if len(text) > LONGEST:
        raise UnitError(f"answer must be at most {LONGEST} characters, got {len(text)}")
    text = lowered(text).translate(SIGNS).strip().lstrip("=~≈ ")
    numbers, rest = _numbers(text)
    stated: Stated = ""
    for pattern, word in STATED:
        rest, hits = pattern.subn("", rest)
        stated = word if hits else stated
    unit = rest.strip()
    return numbers, f"1{unit}" if unit.startswith("/") else unit, stated


def _numbers(text: str) -> tuple[tuple[float, ...], str]:
    """Return what the number at the head of `text` can mean, and the rest of the text."""
    found = FRACTION.match(text)
    if found:
        sign, whole, top, bottom = found.groups()
        if not int(bottom):
            raise UnitError(f"fraction must not have zero below the line, got {found[0]!r}")
        value = int(whole or 0) + int(top) / int(bottom)
        return (-value if sign == "-" else value,), text[found.end() :]
    found = DECIMAL.match(text)
    if not found:
        raise UnitError(f"answer must begin with a number, got {text[:40]!r}")
    sign, digits, power = found.groups()
    return tuple(float(f"{sign}{plain}e{power or 0}") for plain in _plain(digits)), text[
        found.end() :
    ]


def _plain(digits: str) -> tuple[str, ...]:
    """Return `digits` with a decimal point and nothing else, in every way they can be read."""
    digits = re.sub(r"[ '_]", "", digits).rstrip(".,")
    if "." in digits and "," in digits:
        decimal = max(".,", key=digits.rfind)
        whole, _, part = digits.rpartition(decimal)
        grouped = re.fullmatch(r"\d{1,3}(?:[.,]\d{3})+", whole) and decimal not in whole
        if not grouped:
            raise UnitError(f"number must have one decimal sign, got {digits!r}")
        return (f"{re.sub('[.,]', '', whole)}.{part}",)
    if re.fullmatch(r"\d{1,3}(?:([.,])\d{3})(?:\1\d{3})+", digits):
        return (re.sub("[.,]", "", digits),)
    if digits.count(",") + digits.count(".") > 1:
        raise UnitError(f"number must have one decimal sign, got {digits!r}")
    if re.fullmatch(r"[1-9]\d{0,2},\d{3}", digits):
        return digits.replace(",", "."), digits.replace(",", "")
    return (digits.replace(",", "."),)

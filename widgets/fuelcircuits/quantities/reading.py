"""Read a value with its unit, as a person in the trade would write it down.

``12.5 inHg``, ``12,5 inHg``, ``1 234.5 Pa``, ``1.2 x 10^-3 kg/s``, ``1-1/4 in``, ``5 psi gauge``.
The text may come from anybody: whatever it holds, reading it is quick, and ends in readings
or in a `UnitError`.
"""

import math
import re
from dataclasses import dataclass
from typing import Literal, TypeAlias

from fuelcircuits.errors import UnitError
from fuelcircuits.quantities.grammar import lowered
from fuelcircuits.quantities.kinds import Dimension, dimension_of
from fuelcircuits.quantities.trade_units import labelled, scale

__all__ = ["LONGEST", "Reading", "Stated", "measure", "parts", "read"]

LONGEST = 200
Stated: TypeAlias = Literal["", "absolute", "gauge", "vacuum", "difference"]


@dataclass(frozen=True)
class Reading:
    """A value in SI, the dimension of it, and where it says it counts from.

    `bare` is true if no unit was written at all. `degrees` is set for a point on a temperature
    scale (20 degC): the value [K] if it was meant as a difference of temperatures.
    """

    magnitude: float
    dimension: Dimension
    text: str
    stated: Stated = ""
    bare: bool = False
    degrees: float | None = None


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


def read(text: str) -> tuple[Reading, ...]:
    """Return what `text` can mean: one reading, or two where a comma leaves it open.

    Raises
    ------
    UnitError
        If there is no number, or what follows it is not a unit.
    """
    numbers, unit, stated = parts(text)
    return tuple(measure(number, unit, stated) for number in numbers)


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


def measure(magnitude: float, unit: str, stated: Stated = "") -> Reading:
    """Return `magnitude` in `unit` as a reading; raise `UnitError` if it cannot be one."""
    known = scale(unit)
    value = known.factor * magnitude + known.offset
    if not math.isfinite(value):
        raise UnitError(f"answer must be a finite number, got {magnitude}")
    if known.name.startswith("delta_"):
        stated = "difference"
    degrees = known.factor * magnitude if known.degrees else None
    five_figures = float(f"{magnitude:.5g}")
    text = labelled(f"{five_figures:.9g}", unit)
    if stated == "difference":
        text += " (difference)"
    return Reading(value, dimension_of(unit), text, stated, not unit, degrees)


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

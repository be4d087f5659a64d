"""An entry of a card as somebody in the trade writes it, read into SI.

Besides a number with its unit: a number alone in the field's own unit, a decimal comma, inches
with a stroke (``1-1/16"``), cubic inches in words, number drills (``#65``).
"""

import re

from fuelcircuits.errors import RangeError, UnitError
from fuelcircuits.own_car.entry_text import entry_facts, entry_text, shop_unit
from fuelcircuits.quantities.written import si

__all__ = ["entry_value", "is_bare", "with_unit"]

_BARE = re.compile(r"[+-]?\s*(?:\d+\.?\d*|\.\d+|(?:\d+\s*[- ]\s*)?\d+\s*/\s*\d+)")
_INCHES = re.compile(r"(?<=\d)\s*(?:\"|″|”|''|inch(?:es)?\b)")
_CUBIC = re.compile(r"\s*(?:cu\.?\s*in\.?|cubic\s+inch(?:es)?|cid|ci)\s*$", re.IGNORECASE)
_TURNS = re.compile(r"\s*turns?\s*$", re.IGNORECASE)
_COMMA = re.compile(r"(?<=\d),(?=\d)")
_UNITS = {"mm²": "mm^2", "°": "deg"}


def entry_value(entry: str, text: str) -> float:
    """Return an entry in SI.

    Parameters
    ----------
    entry
        Section and field, with a dot between.
    text
        What somebody wrote.

    Raises
    ------
    UnitError
        If it is no number, or has a unit of another kind.
    RangeError
        If no part of a carburettor is like that; the message gives the limits.
    """
    facts, meaning = entry_facts(entry), str(entry_facts(entry)["meaning"])
    unit = "dimensionless" if facts["unit"] == "1" else str(facts["unit"])
    try:
        value = si(with_unit(entry, text), unit, meaning)
    except UnitError:
        raise UnitError(f"{meaning} must be like {_example(entry)}, got {text.strip()!r}") from None
    if facts["low"] <= value <= facts["high"]:
        return value
    least, most = (entry_text(entry, facts[end]) for end in ("low", "high"))
    raise RangeError(f"{meaning} must be between {least} and {most}, got {text.strip()}")


def with_unit(entry: str, text: str) -> str:
    """Return the text of an entry with its unit, in the form that a spec card takes."""
    plain = _COMMA.sub(".", text.strip())
    plain = _CUBIC.sub(" in^3", _INCHES.sub(" in", plain))
    label = shop_unit(entry)[0]
    if not label:
        return _TURNS.sub("", plain)
    return f"{plain} {_UNITS.get(label, label)}" if _BARE.fullmatch(plain) else plain


def is_bare(text: str) -> bool:
    """Return whether a text is a number with no unit."""
    return _BARE.fullmatch(_COMMA.sub(".", text.strip())) is not None


def _example(entry: str) -> str:
    """Return what an entry may look like."""
    label = shop_unit(entry)[0]
    middle = {"mm": '1.35 mm, 0.053 in, 1-1/16" or #55', "L": "1.6 L, 1600 cc or 97 cu in"}
    return middle.get(label, f"12 {label}".strip())

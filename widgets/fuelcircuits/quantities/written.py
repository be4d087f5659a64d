"""Quantities as a spec card has them, read by a table: ``2.3 mm``, ``1-1/16 in``, ``#65 drill``.

`si` turns one into a plain SI float, and `like` writes one in the unit somebody else has used.
"""

import re
from functools import cache
from math import prod
from typing import Any

from fuelcircuits.errors import UnitError
from fuelcircuits.quantities.drills import diameter_of
from fuelcircuits.quantities.grammar import Powers, lowered, powers_in
from fuelcircuits.quantities.spellings import trade_powers
from fuelcircuits.quantities.unit_table import PLAIN, PREFIXES, TURNED, UNITS, Unit

__all__ = ["like", "number_and_unit", "si", "spelt_unit", "unit_in"]

NUMBER = re.compile(
    r"\s*(?P<sign>[+-]?)\s*(?:(?:(?P<whole>\d+)\s*[- ]\s*)?(?P<top>\d+)\s*/\s*(?P<bottom>\d+)"
    r"|(?P<plain>(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?))[\s*]*",
    re.IGNORECASE,
)
"""A decimal, or a fraction as inches come, with or without a whole number: ``1-1/16``."""
DRILL = re.compile(r"\s*(?:#|no\.?|nr\.?|drill)\s*#?\s*(\d{1,3})(?:\s*drill)?\s*", re.IGNORECASE)
"""A number drill: ``#65``, ``No. 65 drill``, ``drill 65``."""
RAISED = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")
ALONE = {name: unit for names, unit in (*UNITS.items(), *TURNED.items()) for name in names.split()}
TURNING = {name for names in TURNED for name in names.split()}
TURNS = {name: facts for names, facts in PREFIXES.items() for name in names.split()}


def si(written: Any, unit: str, name: str = "value") -> float:
    """Return the quantity that `written` says as a float in `unit`.

    Raises
    ------
    UnitError
        If it is no number with a unit, or one of another dimension.
    """
    wanted = unit_in(unit)
    try:
        number, found = _parts(written)
    except UnitError as error:
        raise UnitError(
            f"{name} must be a number with a unit such as {unit}, got {written!r}"
        ) from error
    if found.dimension != wanted.dimension:
        raise UnitError(f"{name} must be convertible to {unit}, got {written}")
    return (number * found.one + found.nought - wanted.nought) / wanted.one


def like(written: str, number: float, unit: str) -> str:
    """Return `number` in `unit` as text in the unit of the quantity `written`: ``6 mm``."""
    found, held = _parts(written)[1], unit_in(unit)
    shown = (number * held.one + held.nought - found.nought) / found.one
    return f"{shown:g} {number_and_unit(written)[1]}"


@cache
def unit_in(text: str) -> Unit:
    """Return the unit that `text` says, ``kg/m**3``; raise `UnitError` if the table lacks it.

    A temperature scale in a product stands for a difference.
    """
    return _unit(powers_in(lowered(f"1{text}" if text.startswith("/") else text), _named))


@cache
def spelt_unit(text: str) -> Unit:
    """Return the unit that `text` says as the trade spells it, ``in. Hg``; raise `UnitError`."""
    return _unit(trade_powers(text, _full))


def _full(name: str) -> str | None:
    """Return a name if the table has it."""
    try:
        _known(name)
    except UnitError:
        return None
    return name


def _unit(powers: Powers) -> Unit:
    """Return the product of units of the table."""
    if list(powers.values()) == [1.0]:
        return _known(*powers)
    factors = [(_known(name), power) for name, power in powers.items()]
    return Unit(
        label=_label(powers),
        dimension=_dimension(factors),
        one=prod(unit.one**power for unit, power in factors),
    )


def _dimension(factors: list[tuple[Unit, float]]) -> Any:
    return tuple(
        sum(unit.dimension[at] * power for unit, power in factors) for at in range(len(PLAIN))
    )


def _parts(written: Any) -> tuple[float, Unit]:
    """Return number and unit; raise `UnitError` if they are none."""
    number, unit = number_and_unit(written)
    return number, unit_in(unit)


def number_and_unit(written: Any) -> tuple[float, str]:
    """Return the number that `written` says, and the text of its unit; of a drill its diameter.

    Raises
    ------
    UnitError
        If it begins with no number.
    """
    if isinstance(written, str) and (drill := DRILL.fullmatch(written)):
        return 1e3 * diameter_of(int(drill[1])), "mm"
    found = NUMBER.match(written) if isinstance(written, str) else None
    if not found or (found["bottom"] and not int(found["bottom"])):
        raise UnitError(f"quantity must begin with a number, got {written!r}")
    if found["plain"]:
        value = float(found["plain"])
    else:
        value = int(found["whole"] or 0) + int(found["top"]) / int(found["bottom"])
    return (-value if found["sign"] == "-" else value), written[found.end() :].strip()


def _named(name: str) -> Powers:
    """Return a name of the table as it is; raise `UnitError` if there is none such."""
    name = name.rstrip(".").replace(" ", "")
    _known(name)
    return {name: 1.0}


@cache
def _known(name: str) -> Unit:
    """Return the unit of this name, with a prefix or an s behind it or without."""
    if name in ALONE:
        return ALONE[name]
    for prefix, (label, times) in TURNS.items():
        base = name.removeprefix(prefix)
        if base != name and base in TURNING:
            unit = ALONE[base]
            return unit._replace(label=label + unit.label, one=times * unit.one)
    if len(name) > 3 and name.endswith("s"):
        return _known(name[:-1])
    raise UnitError(f"unit must be one of the table, got {name!r}")


def _label(powers: Powers) -> str:
    """Return how a product of units is written: ``lb/ft³``."""
    above = [_raised(name, power) for name, power in powers.items() if power > 0]
    below = [_raised(name, -power) for name, power in powers.items() if power < 0]
    over = " ".join(above)
    under = f"({' '.join(below)})" if len(below) > 1 else "".join(below)
    return f"{over or 1}/{under}" if under else over


def _raised(name: str, power: float) -> str:
    return _known(name).label + ("" if power == 1 else f"{power:g}".translate(RAISED))

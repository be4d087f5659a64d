"""Constants and tables that the formulas of a block may name, and its questions' words too."""

import re
from collections.abc import Collection, Mapping
from itertools import pairwise
from typing import Any

from fuelcircuits.quantities.trade_units import labelled, scale

from fuelmarks.formula.functions import Constant, Table
from fuelmarks.questions.frame.drawing import from_si
from fuelmarks.questions.frame.entries import Entries
from fuelmarks.questions.frame.worded import BlockError, number_with_unit

__all__ = ["constant_from", "filled", "table_from"]


def constant_from(name: str, text: str) -> Constant:
    """Return a constant: ``"0.9 kg/m^3/K | the loss of density | source"``."""
    body, words, source = (*(part.strip() for part in text.split("|", 2)), "", "")[:3]
    value, unit = number_with_unit(f"constant {name}", body)
    way = scale(unit) if unit else None
    if not words:
        raise BlockError(f"constant {name} must end in | and its words, got {text!r}")
    return Constant(way.factor * value + way.offset if way else value, unit, words, source)


def table_from(name: str, plain: Any) -> Table:
    """Return a table with its places and values in SI."""
    entries = Entries(
        f"table {name}", plain, ("places", "values", "place_unit", "value_unit", "words")
    )
    units = entries.text("place_unit", ""), entries.text("value_unit", "")
    places, values = (
        _in_si(entries.numbers(part), unit)
        for part, unit in zip(("places", "values"), units, strict=True)
    )
    if len(places) != len(values) or len(places) < 2:
        raise BlockError(f"table {name} must have as many values as places, two or more")
    if any(not low < high for low, high in pairwise(places)):
        raise BlockError(
            f"table {name} must have places that rise, got {entries.numbers('places')}"
        )
    return Table(places, values, *units, entries.text("words"))


def _in_si(numbers: tuple[float, ...], unit: str) -> tuple[float, ...]:
    """Return numbers in `unit` as SI."""
    if not unit:
        return numbers
    way = scale(unit)
    return tuple(way.factor * each + way.offset for each in numbers)


def filled(
    where: str, plain: Mapping[str, Any], givens: Collection[str], constants: Mapping[str, Constant]
) -> Mapping[str, Any]:
    """Return a question with the constants in its text written out; givens stay in braces.

    Raise `BlockError` for a name in braces that is neither.
    """
    ask = plain.get("ask")
    if not isinstance(ask, str):
        return plain

    def written(hit: re.Match[str]) -> str:
        name = hit[1]
        if name in givens:
            return hit[0]
        if name not in constants:
            known = ", ".join(sorted([*givens, *constants])) or "there are none"
            rule = f"ask must name givens or constants in braces, which are {known}"
            raise BlockError(f"{where}: {rule}, got {hit[0]}")
        found = constants[name]
        return labelled(f"{from_si(found.value, found.unit):.6g}", found.unit)

    return {**plain, "ask": re.sub(r"\{(\w+)\}", written, ask)}

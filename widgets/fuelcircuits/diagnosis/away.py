"""By how much each suspect's readings are off, with the standard library alone."""

from collections.abc import Mapping
from math import inf, isfinite, isnan

from fuelcircuits.diagnosis.check import Check
from fuelcircuits.diagnosis.table import Row, Table
from fuelcircuits.errors import RangeError

__all__ = ["away", "columns"]


def away(table: Table, readings: Mapping[str, float]) -> list[list[Row]]:
    """Return by how many uncertainties each suspect is off at each reading.

    A row for each suspect and severity, as in the table; infinite where the suspect has no state
    to be read in. Raises `RangeError` if a check is not in the table, or a reading is no finite
    number.
    """
    made = [
        (at, table.checks[at], readings[table.checks[at].name]) for at in columns(table, readings)
    ]
    return [
        [[_off(check, row[at], value) for at, check, value in made] for row in rows]
        for rows in table.expected
    ]


def columns(table: Table, readings: Mapping[str, float]) -> list[int]:
    """Return where each reading stands in the table; raise `RangeError` as `away` does."""
    known = [check.name for check in table.checks]
    for name, value in readings.items():
        if name not in known:
            raise RangeError(f"check must be one of {', '.join(known)}, got {name!r}")
        if not isfinite(value):
            raise RangeError(f"{name} must be a finite number, got {value}")
    return [known.index(name) for name in readings]


def _off(check: Check, expected: float, value: float) -> float:
    return inf if isnan(expected) else (value - expected) / check.uncertainty(expected)

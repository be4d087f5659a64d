"""Which suspects some readings leave, and the cheapest readings that leave only one."""

from collections.abc import Iterable, Iterator, Mapping
from itertools import combinations
from typing import NamedTuple

from fuelcircuits.diagnosis.away import away
from fuelcircuits.diagnosis.check import Check, minutes_of
from fuelcircuits.diagnosis.table import Table
from fuelcircuits.errors import ConvergenceError

__all__ = ["APART", "Plan", "cheapest", "left"]

APART = 3.0
"""How many standard uncertainties a reading may be off before its suspect is ruled out; common
practice, no source."""


class Plan(NamedTuple):
    """Checks that belong together, and the minutes they take."""

    checks: tuple[str, ...]
    minutes: float


def left(table: Table, readings: Mapping[str, float]) -> tuple[str, ...]:
    """Return the suspects that fit every reading at one severity or another.

    Parameters
    ----------
    table
        What the suspects would show.
    readings
        What was read, by the check's name [SI].

    Returns
    -------
    tuple of str
        Those not ruled out, in the table's order; none if no suspect fits.

    Raises
    ------
    RangeError
        If a check is not in the table, or a reading is no finite number.
    """
    return _fitting(table, _misfits(table, readings), range(len(readings)))


def cheapest(table: Table, readings: Mapping[str, float]) -> Plan:
    """Return the readings that leave a single suspect and take the fewest minutes.

    Raises
    ------
    RangeError
        As for `left`.
    ConvergenceError
        If all the readings together leave none, or more than one.
    """
    misfits = _misfits(table, readings)
    remaining = _fitting(table, misfits, range(len(readings)))
    if len(remaining) != 1:
        raise ConvergenceError(f"readings must leave one suspect, got {remaining}")
    checks = [table.checks[table.column(name)] for name in readings]
    names = list(readings)
    plans = sorted(_subsets(checks), key=lambda plan: (plan[0], len(plan[1]), plan[1]))
    for cost, chosen in plans:
        if _fitting(table, misfits, chosen) == remaining:
            return Plan(tuple(names[at] for at in chosen), cost)
    raise AssertionError("all readings together leave one suspect")


def _subsets(checks: list[Check]) -> Iterator[tuple[float, tuple[int, ...]]]:
    """Yield every choice of checks with the minutes it takes."""
    for count in range(1, len(checks) + 1):
        for chosen in combinations(range(len(checks)), count):
            yield minutes_of(checks[at] for at in chosen), chosen


def _misfits(table: Table, readings: Mapping[str, float]) -> list[list[set[int]]]:
    """Return which readings each suspect at each severity does not fit."""
    return [
        [{at for at, far in enumerate(row) if abs(far) > APART} for row in rows]
        for rows in away(table, readings)
    ]


def _fitting(table: Table, misfits: list[list[set[int]]], chosen: Iterable[int]) -> tuple[str, ...]:
    """Return the suspects that fit all the chosen readings at one severity."""
    made = set(chosen)
    return tuple(
        name
        for name, rows in zip(table.suspects, misfits, strict=True)
        if any(made.isdisjoint(row) for row in rows)
    )

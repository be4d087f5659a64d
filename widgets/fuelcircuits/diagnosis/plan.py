"""Which suspects some readings leave, and the cheapest readings that leave only one."""

from collections.abc import Iterator, Mapping
from itertools import combinations
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.diagnosis.ranking import away
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
    return _fitting(table, _fits(table, readings))


def cheapest(table: Table, readings: Mapping[str, float]) -> Plan:
    """Return the readings that leave a single suspect and take the fewest minutes.

    Raises
    ------
    RangeError
        As for `left`.
    ConvergenceError
        If all the readings together leave none, or more than one.
    """
    fits = _fits(table, readings)
    remaining = _fitting(table, fits)
    if len(remaining) != 1:
        raise ConvergenceError(f"readings must leave one suspect, got {remaining}")
    minutes = [table.checks[table.column(name)].minutes for name in readings]
    names = list(readings)
    plans = sorted(_subsets(minutes), key=lambda plan: (plan[0], len(plan[1]), plan[1]))
    for cost, chosen in plans:
        if _fitting(table, fits[:, :, chosen]) == remaining:
            return Plan(tuple(names[at] for at in chosen), cost)
    raise AssertionError("all readings together leave one suspect")


def _subsets(minutes: list[float]) -> Iterator[tuple[float, tuple[int, ...]]]:
    """Yield every choice of checks with the minutes it takes."""
    for count in range(1, len(minutes) + 1):
        for chosen in combinations(range(len(minutes)), count):
            yield sum(minutes[at] for at in chosen), chosen


def _fits(table: Table, readings: Mapping[str, float]) -> NDArray[np.bool_]:
    """Return whether each suspect at each severity fits each reading."""
    return np.asarray(np.abs(away(table, readings)[0]) <= APART)


def _fitting(table: Table, fits: NDArray[np.bool_]) -> tuple[str, ...]:
    """Return the suspects that fit all at one severity."""
    whole = np.any(np.all(fits, axis=2), axis=1).tolist()
    return tuple(name for name, fit in zip(table.suspects, whole, strict=True) if fit)

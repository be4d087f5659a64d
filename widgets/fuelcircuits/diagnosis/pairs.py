"""Two suspects at once: which pairs explain what no single suspect does."""

from collections.abc import Iterable, Mapping
from itertools import combinations, product
from typing import NamedTuple

from fuelcircuits.diagnosis.chance import allowed
from fuelcircuits.diagnosis.held import Gauge, held
from fuelcircuits.diagnosis.ranking import Weighed
from fuelcircuits.diagnosis.table import HEALTHY, STEPS, Row

__all__ = ["Pair", "pairs"]


class Pair(NamedTuple):
    """Two suspects, and the squared misfit of the readings where both are so."""

    names: tuple[str, str]
    square: float


def pairs(
    weighed: Weighed, readings: Mapping[str, float], among: Iterable[str], rough: float = 0.0
) -> list[Pair]:
    """Return the pairs that explain all readings within their doubt, the best fit first.

    Two faults are taken to move a reading by the sum of what each does alone: first principles
    for small ones; for large ones it is rough, so that more than a hint must not be made of it.

    Parameters
    ----------
    weighed
        What was read, weighed against single suspects; "nothing wrong" must be among them.
    readings
        The same readings [SI], by the check's name.
    among
        Suspects to pair.
    rough
        As for `fuelcircuits.diagnosis.ranking.weigh`.
    """
    table, made = weighed.table, weighed.columns
    home = table.rows(HEALTHY)[0]
    gauges = [
        Gauge(table.checks[at], at, value, weighed.unit[at], 1.0, rough, home[at])
        for at, value in zip(made, readings.values(), strict=True)
    ]
    tied = [[weighed.leeway[i][k] for k in made] for i in made]
    rows = {name: [table.rows(name)[step] for step in STEPS] for name in among}
    found = [
        Pair(names, min(held(gauges, tied, row).square for row in _both(names, rows, home)))
        for names in combinations(rows, 2)
    ]
    return sorted(
        (one for one in found if one.square <= allowed(len(made))), key=lambda one: one.square
    )


def _both(names: tuple[str, str], rows: Mapping[str, list[Row]], home: Row) -> Iterable[Row]:
    """Yield what two suspects would show together, at every two severities."""
    for first, second in product(*(rows[name] for name in names)):
        yield [a + b - at for a, b, at in zip(first, second, home, strict=True)]

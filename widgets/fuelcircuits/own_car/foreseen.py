"""What an owner's car would show, healthy and with each fault: all that no reading changes."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from math import inf, isnan
from typing import NamedTuple

from fuelcircuits import faults
from fuelcircuits.diagnosis.check import Check
from fuelcircuits.diagnosis.checks import OWN, find, fitting
from fuelcircuits.diagnosis.march import March
from fuelcircuits.diagnosis.table import Table, predicting
from fuelcircuits.own_car.healthy import NOTHING, Healthy, healthy
from fuelcircuits.own_car.leeway import RUNNING
from fuelcircuits.own_car.readings import BELIEVED
from fuelcircuits.own_car.settling import Rows
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig

__all__ = ["Foreseen", "foreseeing", "to_make"]

_CARD, _LEEWAY = 0.07, 0.88
"""Share of the work after which the card is settled, and the suspects are solved [1]."""


class Foreseen(NamedTuple):
    """The healthy car of a card, and what it would show with each fault."""

    card: Healthy
    table: Table
    leeway: Rows
    """Covariance of the table's checks by what the card may still be off [SI]."""


def to_make(
    rig: Rig, known: Iterable[str] = (), further: Iterable[str] | None = None
) -> list[Check]:
    """Return the checks to foresee: those already made, and those that could come next.

    Parameters
    ----------
    rig
        The car's carburettor.
    known
        Names of checks that were made.
    further
        Names of those that could be; all that the rig has the parts for, but for those that the
        model is slow at, if not given. Those around it are among them once one of them was made.
    """
    made = list(known)
    quick = [one.name for one in fitting(rig, around=_around(made)) if not one.slow]
    return [find(name) for name in dict.fromkeys([*made, *(quick if further is None else further)])]


def _around(checks: Iterable[str]) -> bool:
    """Return whether any of these checks is read around the carburettor."""
    return not set(checks) <= set(OWN)


def foreseeing(
    rig: Rig,
    checks: Sequence[Check],
    weather: Weather,
    fuel: Fuel,
    *,
    measured: Collection[str] | None = None,
    ran_well: Mapping[str, float] = NOTHING,
    suspects: Iterable[str] | None = None,
) -> March[Foreseen]:
    """Return the march that ends with what a car would show; it yields what share is done [1].

    Parameters
    ----------
    rig
        The car's carburettor as it should be.
    checks
        What will be read.
    weather, fuel
        What it is read in and with.
    measured
        Entries of the card that somebody has measured; all of them if not given.
    ran_well
        What gauges showed when this very car ran well, by the check's name [SI].
    suspects
        Faults to think of; all that the rig can have if not given, and what lies around it once
        that is read: where nobody has looked, no reading tells such a cause from a fault.

    Raises
    ------
    RangeError
        If a suspect is not known.
    CardError
        If the rig lacks a section that the model needs, or cannot idle.
    """
    needed = dict.fromkeys(need for check in checks for need in check.needs)
    sections = [*RUNNING, *(name for name in needed if name not in RUNNING)]
    card = healthy(rig, weather, fuel, measured=measured, sections=sections, ran_well=ran_well)
    yield _CARD
    if suspects is None and _around(check.name for check in checks):
        suspects = faults.fitting(rig, around=True)
    march = predicting(card.warmed, checks, suspects)
    while True:
        try:
            yield _CARD + (_LEEWAY - _CARD) * next(march)
        except StopIteration as end:
            return Foreseen(card, _as_shown(end.value), card.leeway(checks))


def _as_shown(table: Table) -> Table:
    """Return a table with each reading within what a running engine is believed to show."""
    limits = [BELIEVED.get(check.name, (-inf, inf)) for check in table.checks]
    return table._replace(
        expected=[
            [[_within(*one) for one in zip(row, limits, strict=True)] for row in rows]
            for rows in table.expected
        ]
    )


def _within(value: float, limits: tuple[float, float]) -> float:
    return value if isnan(value) else min(max(value, limits[0]), limits[1])

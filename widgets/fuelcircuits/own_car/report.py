"""From readings to a plan: first whether the card fits, then what is wrong, then the next test."""

from collections.abc import Collection, Iterable, Mapping
from functools import lru_cache
from math import sqrt
from types import MappingProxyType

from fuelcircuits.diagnosis.check import Check
from fuelcircuits.diagnosis.march import finished
from fuelcircuits.diagnosis.pairs import Pair, pairs
from fuelcircuits.diagnosis.ranking import HEALTHY_SHARE, Weighed, rank, weigh
from fuelcircuits.diagnosis.table import HEALTHY, Row
from fuelcircuits.diagnosis.worth import worth
from fuelcircuits.own_car.corrections import corrections
from fuelcircuits.own_car.doubtful import mendings
from fuelcircuits.own_car.findings import Band, Findings
from fuelcircuits.own_car.foreseen import Foreseen, foreseeing, to_make
from fuelcircuits.own_car.healthy import NOTHING
from fuelcircuits.own_car.look import look_bits
from fuelcircuits.own_car.looks import LOOKS, answers_of, left, seen_likelihood
from fuelcircuits.own_car.page import page
from fuelcircuits.own_car.readings import understood
from fuelcircuits.own_car.tools import steps
from fuelcircuits.own_car.unbroken import unbroken
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig

__all__ = ["Report", "diagnose", "ranked", "whole"]

_SEA_LEVEL, _PETROL = Weather.at(), Fuel()
_OTHERWISE = ((0.25, 1.0), (0.75, 1.0), (HEALTHY_SHARE, 0.7), (HEALTHY_SHARE, 1.4))
"""Other priors and doubts that would be as good: common practice, no source."""
ROUGH = 0.15
"""Doubt of how far a fault moves a reading, as a part of that [1]; common practice, no source."""
_HIDDEN = 1.0
"""Doubts that a fault must move some reading by, or the readings cannot see it [1]."""


class Report(Findings):
    """What the readings say; a notebook shows it as a page."""

    __slots__ = ()

    def __repr__(self) -> str:
        """Return the plan as text."""
        return page(self)

    def _repr_markdown_(self) -> str:
        """Show the plan in a notebook."""
        return unbroken(page(self))


def diagnose(
    rig: Rig,
    readings: Mapping[str, object],
    *,
    weather: Weather = _SEA_LEVEL,
    fuel: Fuel = _PETROL,
    measured: Collection[str] | None = None,
    ran_well: Mapping[str, float] = NOTHING,
    seen: Mapping[str, object] = MappingProxyType({}),
    owned: Collection[str] = (),
    suspects: Iterable[str] | None = None,
    further: Iterable[str] | None = None,
) -> Report:
    """Return what the readings of a car say about it.

    Parameters
    ----------
    rig
        The car's carburettor as it should be.
    readings
        What was read, by the check's name: text with a unit such as ``"18.5 inHg"``, a
        quantity, or a number in the check's own unit.
    weather, fuel
        What it was read in and with.
    measured
        Entries of the card that somebody has measured, such as ``"high_speed.jet_bore"``; all of
        them if not given.
    ran_well
        What gauges showed when this very car ran well, by the check's name [SI].
    seen
        What was seen without a gauge, yes or no, by the name of one of
        `fuelcircuits.own_car.looks.LOOKS`.
    owned
        Tools that need not be bought, of `fuelcircuits.own_car.tools.PRICES`.
    suspects
        Faults to think of; all that the rig can have if not given.
    further
        Checks that could still be made; all that the rig has the parts for, but for those
        that the model is slow at, if not given.

    Returns
    -------
    Report
        The card first, then suspects by probability, then what could come next by the bits it
        can be expected to tell for its minutes and its price.

    Raises
    ------
    ReadingError
        If a reading is not known or cannot be used; a line for each.
    RangeError
        If a suspect, or what was seen, is not known.
    CardError
        If the rig lacks a section that the model needs, or cannot idle.
    """
    known, looked = understood(readings, fuel), answers_of(seen)
    foreseen = _foreseen(
        *(rig, tuple(to_make(rig, known, further)), weather, fuel),
        measured=None if measured is None else frozenset(measured),
        ran_well=tuple(ran_well.items()),
        suspects=None if suspects is None else tuple(suspects),
    )
    return whole(ranked(foreseen, known, looked), owned)


@lru_cache(maxsize=4)
def _foreseen(
    rig: Rig,
    checks: tuple[Check, ...],
    weather: Weather,
    fuel: Fuel,
    *,
    measured: frozenset[str] | None,
    ran_well: tuple[tuple[str, float], ...],
    suspects: tuple[str, ...] | None,
) -> Foreseen:
    """Return what a car would show; it is kept, since another reading changes nothing of it."""
    march = foreseeing(
        *(rig, checks, weather, fuel),
        measured=measured,
        ran_well=dict(ran_well),
        suspects=suspects,
    )
    return finished(march)


def ranked(foreseen: Foreseen, known: Mapping[str, float], looked: Mapping[str, bool]) -> Report:
    """Return the report as far as it ranks: no changes of the card, nothing that could come next.

    Parameters
    ----------
    foreseen
        What the car would show.
    known
        What was read, by the check's name [SI]; all of these must have been foreseen.
    looked
        What was seen without a gauge, by the look's name.

    Raises
    ------
    RangeError
        If no suspect can have a state in which this was read.
    """
    card, table, leeway = foreseen
    told = seen_likelihood(table.suspects, looked)
    weighed = weigh(table, known, leeway, rough=ROUGH, seen=told)
    others = (
        weigh(table, known, leeway, healthy=share, doubt=by, rough=by * ROUGH, seen=told)
        for share, by in _OTHERWISE
    )
    hidden = _hidden(weighed, looked)
    return Report(
        card=card,
        weighed=weighed,
        readings=known,
        suspicions=rank(weighed),
        bands=_bands(weighed, *others),
        seen=looked,
        hidden=hidden,
        mendings=[],
        corrections=[],
        next_checks=[],
        steps=[],
        pairs=_pairs(weighed, known, hidden),
    )


def _pairs(weighed: Weighed, known: Mapping[str, float], hidden: Collection[str]) -> list[Pair]:
    """Return the two faults at once that explain the readings, where no single one does."""
    if weighed.explained:
        return []
    seen = [name for name in weighed.table.suspects if name not in (HEALTHY, *hidden)]
    return pairs(weighed, known, seen, ROUGH)


def whole(report: Report, owned: Collection[str]) -> Report:
    """Return a ranked report with the least changes of the card, and what could come next.

    Where the verdict leaves several outcomes open, a step tells as much as it tells these apart.
    `owned` are the tools that need not be bought.
    """
    open_to = report.weighed.among(report.apart) if report.apart else report.weighed
    next_checks = worth(open_to)
    looks = [(one, look_bits(open_to, one)) for one in left(report.seen, report.readings)]
    return report._replace(
        mendings=mendings(report.card, report.readings),
        corrections=corrections(report.card, report.weighed),
        next_checks=next_checks,
        steps=steps(next_checks, looks, owned),
    )


def _bands(*every: Weighed) -> dict[str, Band]:
    """Return between what the probability of each suspect lies if it is weighed in other ways."""
    rows = zip(*(one.shares for one in every), strict=True)
    named = zip(every[0].table.suspects, rows, strict=True)
    return {name: Band(min(row), max(row)) for name, row in named}


def _hidden(weighed: Weighed, looked: Iterable[str]) -> tuple[str, ...]:
    """Return the faults that would move no reading by as much as it is in doubt anyway.

    Nor would anything that was looked at have shown them.
    """
    at = weighed.table.suspects.index(HEALTHY)
    doubts = [_HIDDEN * sqrt(weighed.leeway[one][one] + 1.0) for one in weighed.columns]
    home, looks = weighed.off[at][0], [LOOKS[name].shows for name in looked]
    return tuple(
        name
        for name, rows in zip(weighed.table.suspects, weighed.off, strict=True)
        if name != HEALTHY
        and all(_near(row, home, doubts) for row in rows)
        and not any(name in shows for shows in looks)
    )


def _near(row: Row, home: Row, doubts: Row) -> bool:
    """Return whether all of a row can be read, and is no more than its doubt from home."""
    every = zip(row, home, doubts, strict=True)
    return all(abs(one - here) <= doubt for one, here, doubt in every)

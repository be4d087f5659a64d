"""Which entries of a card are doubtful: the least changes after which nothing need be wrong."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations
from math import inf, sqrt
from typing import NamedTuple

from fuelcircuits.diagnosis.chance import allowed
from fuelcircuits.diagnosis.check import Check
from fuelcircuits.diagnosis.checks import find
from fuelcircuits.diagnosis.subject import Warmed
from fuelcircuits.errors import CircuitError
from fuelcircuits.own_car.entry_text import entry_meaning, entry_text
from fuelcircuits.own_car.fitting import changed
from fuelcircuits.own_car.healthy import Healthy
from fuelcircuits.own_car.leeway import Dial
from fuelcircuits.own_car.settling import Row, Rows, across, corrected
from fuelcircuits.physics.numerics.linear import dot, solve

__all__ = ["Correction", "Search", "change_text", "least", "mendings"]

MOST, SHOWN = 0.5, 3
"""The most that an entry is thought to be wrong, in relation to itself [1]; how many are told."""
_TRIED, _CLOSER, _WORTH = 8, 6, 30


class Correction(NamedTuple):
    """Entries that would explain the readings if they were otherwise, with what they would be."""

    entries: tuple[tuple[Dial, float], ...]
    """Each with its new value [SI]; the dial holds the old one."""
    size: float
    """How much that is: the root of the summed squares, each in its own uncertainties [1]."""


def mendings(card: Healthy, readings: Mapping[str, float]) -> list[Correction]:
    """Return the least changes of a card as entered after which it reads like a healthy engine.

    Parameters
    ----------
    card
        The card of the healthy car.
    readings
        What was read, by the check's name [SI]; it counts where the card ought to show it.

    Returns
    -------
    list of Correction
        As for `corrections`; none if the card reads like a healthy engine as it stands.
    """
    if not card.strange:
        return []
    checks, free = [find(name) for name in card.entered], card.doubtful
    dials = [card.free[at] for at in free]
    usual = [card.usual[check.name] for check in checks]
    unit = [one.spread for one in usual]
    aim = [
        readings[check.name]
        if abs(readings.get(check.name, inf) - one.middle) < 2 * one.spread
        else one.middle
        for check, one in zip(checks, usual, strict=True)
    ]
    return least(
        Search(
            home=card.home,
            entered=dials,
            free=dials,
            checks=checks,
            unit=unit,
            aim=_in_units(aim, unit),
            now=_in_units(list(card.entered.values()), unit),
            inverse=_one(len(checks)),
            slope=[
                [(before[at] + row[at] / by) / 2 for at in free]
                for before, row, by in zip(
                    card.settled.first, card.slope(checks), unit, strict=True
                )
            ],
        )
    )


def change_text(dial: Dial, new: float) -> str:
    """Return what an entry of the card would have to be, and what it is, in words.

    It says whether somebody measured the entry, for that is where to look first.
    """
    old, *where = entry_text(dial.entry, dial.value), *dial.entry.split(".")[:-1]
    place = " barrel, ".join(where).replace("_", " ")
    known = "measured" if dial.measured else "assumed, not measured"
    name = f"{place}, {entry_meaning(dial.entry)}"
    return f"{name}: {entry_text(dial.entry, new)} instead of {old} ({known})"


def least(search: "Search") -> list[Correction]:
    """Return the smallest corrections that do: single ones, or else pairs."""
    for count in (1, 2):
        tried = sorted(search.straight(count), key=lambda one: one.left)[:_TRIED]
        found = [done for one in tried if (done := search.checked(one.chosen)) is not None]
        if found:
            return sorted(found, key=lambda one: one.size)[:SHOWN]
    return []


class _Try(NamedTuple):
    """Dials that might be turned, and the squared misfit that straight lines then leave."""

    left: float
    chosen: tuple[int, ...]


@dataclass(frozen=True)
class Search:
    """Where a healthy car's readings are, where they should be, and the dials to bring them there.

    Readings are in units of `unit`.
    """

    home: Warmed
    entered: Sequence[Dial]
    free: Sequence[Dial]
    checks: Sequence[Check]
    unit: Row
    aim: Row
    now: Row
    inverse: Rows
    slope: Rows

    def straight(self, count: int) -> Iterator[_Try]:
        """Yield every choice of so many dials among those that tell."""
        off = _less(self.aim, self.now)
        columns = across(self.slope, len(self.free))
        pulled = [_times(self.inverse, column) for column in columns]
        pull = [dot(column, off) for column in pulled]
        own = [dot(*pair) for pair in zip(pulled, columns, strict=True)]
        order = sorted(range(len(columns)), key=lambda k: -abs(pull[k]) / sqrt(own[k] + 1e-12))
        telling = [k for k in order if not self.free[k].of_model][:_WORTH]
        whole = dot(off, _times(self.inverse, off))
        for chosen in combinations(telling, count):
            part = [pull[k] for k in chosen]
            bend = _ridged([[dot(pulled[i], columns[k]) for k in chosen] for i in chosen])
            yield _Try(whole - dot(part, solve(bend, part)), chosen)

    def checked(self, chosen: tuple[int, ...]) -> Correction | None:
        """Return the correction if with the model itself it brings the readings there."""
        free = [self.free[k] for k in chosen]
        turns, left = self._turned(free, [[row[k] for k in chosen] for row in self.slope])
        if left > allowed(len(self.checks)):
            return None
        old = (self.entered[k] for k in chosen)
        new = ((a, b.at(by)) for a, b, by in zip(old, free, turns, strict=True))
        return Correction(tuple(new), sqrt(dot(turns, turns)))

    def _turned(self, free: list[Dial], slope: Rows) -> tuple[Row, float]:
        """Return the turns of some dials that leave least, and the squared misfit then."""
        turns: Row = [0.0] * len(free)
        now, best = self.now, (turns, inf)
        for _ in range(_CLOSER):
            aimed = [
                min(max(turn + by, -MOST / dial.share), MOST / dial.share)
                for turn, by, dial in zip(turns, self._step(slope, now), free, strict=True)
            ]
            step, turns = _less(aimed, turns), aimed
            there = self._shown(free, turns)
            if there is None or not any(step):
                break
            off = _less(self.aim, there)
            left = dot(off, _times(self.inverse, off))
            best = min(best, (turns, left), key=lambda one: one[1])
            slope, now = corrected(slope, step, now, there), there
        return best

    def _step(self, slope: Rows, now: Row) -> Row:
        """Return the turns that straight lines ask for from where the readings are now."""
        columns = across(slope, len(slope[0]))
        pulled = [_times(self.inverse, column) for column in columns]
        off = _less(self.aim, now)
        bend = _ridged([[dot(one, other) for other in columns] for one in pulled])
        return solve(bend, [dot(column, off) for column in pulled])

    def _shown(self, free: list[Dial], turns: Row) -> Row | None:
        """Return what a car with some dials turned shows; nothing if it does not run."""
        try:
            car = changed(self.home, free, turns)
            return _in_units([check.read(car) for check in self.checks], self.unit)
        except CircuitError:
            return None


def _in_units(values: Row, unit: Row) -> list[float]:
    return [value / by for value, by in zip(values, unit, strict=True)]


def _less(values: Row, others: Row) -> list[float]:
    return [value - other for value, other in zip(values, others, strict=True)]


def _times(rows: Rows, column: Row) -> list[float]:
    return [dot(row, column) for row in rows]


def _one(count: int) -> list[list[float]]:
    """Return the matrix that changes nothing."""
    return [[float(i == k) for k in range(count)] for i in range(count)]


def _ridged(rows: Rows) -> list[list[float]]:
    """Return a matrix that can be solved even where a dial tells nothing."""
    return [[one + 1e-9 * (i == k) for k, one in enumerate(row)] for i, row in enumerate(rows)]

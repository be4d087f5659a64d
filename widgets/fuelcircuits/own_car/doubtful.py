"""Which entries of a card are doubtful: the least changes after which nothing need be wrong."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations
from math import inf
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.diagnosis.check import Check
from fuelcircuits.diagnosis.checks import find
from fuelcircuits.diagnosis.ranking import Weighed, allowed
from fuelcircuits.diagnosis.subject import Warmed
from fuelcircuits.diagnosis.table import HEALTHY
from fuelcircuits.errors import CircuitError
from fuelcircuits.own_car.fitting import changed
from fuelcircuits.own_car.healthy import Healthy
from fuelcircuits.own_car.leeway import Dial

__all__ = ["Correction", "corrections", "mendings"]

Floats = NDArray[np.float64]
MOST, SHOWN = 0.5, 3
"""The most that an entry is thought to be wrong, in relation to itself [1]; how many are told."""
_TRIED, _CLOSER, _WORTH = 8, 6, 30


class Correction(NamedTuple):
    """Entries that would explain the readings if they were otherwise, with what they would be."""

    entries: tuple[tuple[Dial, float], ...]
    """Each with its new value [SI]; the dial holds the old one."""
    size: float
    """How much that is: the root of the summed squares, each in its own uncertainties [1]."""


def corrections(card: Healthy, weighed: Weighed) -> list[Correction]:
    """Return the least changes of a card after which a healthy car shows what was read.

    One entry where one will do, else two; what all entries may be off by the way is allowed for.

    Parameters
    ----------
    card
        The card of the healthy car.
    weighed
        What was read, weighed; "nothing wrong" must be among the suspects.

    Returns
    -------
    list of Correction
        The smallest first, at most three; none if nothing need change, or nothing would help.
    """
    if not weighed.columns or weighed.explains(HEALTHY):
        return []
    at = weighed.table.suspects.index(HEALTHY)
    checks = [weighed.table.checks[column] for column in weighed.columns]
    expected = np.array(weighed.table.rows(HEALTHY)[0])[weighed.columns]
    unit = weighed.unit[weighed.columns]
    return _least(
        _Search(
            home=card.warmed,
            entered=card.free,
            free=card.settled_dials,
            checks=checks,
            unit=unit,
            aim=expected / unit + weighed.off[at, 0],
            now=expected / unit,
            inverse=weighed.inverse[at, 0],
            slope=card.slope(checks) / unit[:, None],
        )
    )


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
    checks = [find(name) for name in card.entered]
    usual = [card.usual[check.name] for check in checks]
    unit = np.array([one.spread for one in usual])
    aim = [
        readings[check.name]
        if abs(readings.get(check.name, inf) - one.middle) < 2 * one.spread
        else one.middle
        for check, one in zip(checks, usual, strict=True)
    ]
    return _least(
        _Search(
            home=card.home,
            entered=card.free,
            free=card.free,
            checks=checks,
            unit=unit,
            aim=np.array(aim) / unit,
            now=np.array(list(card.entered.values())) / unit,
            inverse=np.eye(len(checks)),
            slope=(card.settled.first + card.slope(checks) / unit[:, None]) / 2,
        )
    )


def _least(search: "_Search") -> list[Correction]:
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
class _Search:
    """Where a healthy car's readings are, where they should be, and the dials to bring them there.

    Readings are in units of `unit`.
    """

    home: Warmed
    entered: Sequence[Dial]
    free: Sequence[Dial]
    checks: Sequence[Check]
    unit: Floats
    aim: Floats
    now: Floats
    inverse: Floats
    slope: Floats

    def straight(self, count: int) -> Iterator[_Try]:
        """Yield every choice of so many dials among those that tell."""
        off = self.aim - self.now
        pull = self.slope.T @ self.inverse @ off
        bend = self.slope.T @ self.inverse @ self.slope
        order = np.argsort(-np.abs(pull) / np.sqrt(np.diag(bend) + 1e-12)).tolist()
        telling = [k for k in order if not self.free[k].of_model][:_WORTH]
        whole = float(off @ self.inverse @ off)
        for chosen in combinations(telling, count):
            part = bend[np.ix_(chosen, chosen)] + 1e-9 * np.eye(count)
            own = pull[list(chosen)]
            yield _Try(whole - float(own @ np.linalg.solve(part, own)), chosen)

    def checked(self, chosen: tuple[int, ...]) -> Correction | None:
        """Return the correction if with the model itself it brings the readings there."""
        free = [self.free[k] for k in chosen]
        turns, left = self._turned(free, self.slope[:, chosen])
        if left > allowed(len(self.checks)):
            return None
        old = (self.entered[k] for k in chosen)
        new = ((a, b.at(by)) for a, b, by in zip(old, free, turns, strict=True))
        return Correction(tuple(new), float(np.sqrt(turns @ turns)))

    def _turned(self, free: list[Dial], slope: Floats) -> tuple[Floats, float]:
        """Return the turns of some dials that leave least, and the squared misfit then."""
        most = np.array([MOST / dial.share for dial in free])
        turns, now, best = np.zeros(len(free)), self.now, (np.zeros(len(free)), inf)
        for _ in range(_CLOSER):
            bend = slope.T @ self.inverse @ slope + 1e-9 * np.eye(len(free))
            aimed = turns + np.linalg.solve(bend, slope.T @ self.inverse @ (self.aim - now))
            step, turns = np.clip(aimed, -most, most) - turns, np.clip(aimed, -most, most)
            there = self._shown(free, turns)
            if there is None or not step.any():
                break
            off = self.aim - there
            best = min(best, (turns, float(off @ self.inverse @ off)), key=lambda one: one[1])
            slope = slope + np.outer(there - now - slope @ step, step) / (step @ step)
            now = there
        return best

    def _shown(self, free: list[Dial], turns: Floats) -> Floats | None:
        """Return what a car with some dials turned shows; nothing if it does not run."""
        try:
            car = changed(self.home, free, turns)
            return np.array([check.read(car) for check in self.checks]) / self.unit
        except CircuitError:
            return None

"""Find entries of a card that nobody could measure from readings that somebody could take."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from math import sqrt
from typing import NamedTuple

from fuelcircuits.diagnosis.checks import find
from fuelcircuits.diagnosis.subject import Subject, Warmed, warmed
from fuelcircuits.errors import RangeError
from fuelcircuits.own_car.entry_text import entry_meaning, entry_text
from fuelcircuits.own_car.leeway import RUNNING, Dial, turned, value_of
from fuelcircuits.own_car.settling import Row, covariance, root_mean_square, settled
from fuelcircuits.own_car.unbroken import unbroken
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig

__all__ = ["PRIOR", "Fit", "changed", "fit"]

PRIOR = 0.3
"""How far an entry may be off the card before it counts as one uncertainty [1], in relation to
itself; common practice, no source."""
MISFIT = 2.0
"""Misfit beyond which something else is wrong [1]; common practice, no source."""


class Fit(NamedTuple):
    """A card whose unknown entries suit the readings as well as the model allows."""

    rig: Rig
    entries: dict[str, float]
    """Each entry fitted [SI]."""
    doubt: dict[str, float]
    """Its standard uncertainty [SI]."""
    misfit: float
    """Root mean square of (read less expected) over the standard uncertainty [1]."""

    def __repr__(self) -> str:
        """Return what was found as text."""
        lines = ["| entry | found | give or take |", "| --- | --- | --- |"]
        for name, value in self.entries.items():
            found, doubt = entry_text(name, value), entry_text(name, self.doubt[name], figures=1)
            lines.append(f"| {entry_meaning(name)} | {found} | {doubt} |")
        return "\n".join([*lines, "", self._fits()])

    def _repr_markdown_(self) -> str:
        """Show what was found in a notebook."""
        return unbroken(repr(self))

    def _fits(self) -> str:
        """Return how well the readings fit the card with these entries, in words."""
        far = f"{self.misfit:.1f} times their doubt off this card, on the average"
        if self.misfit <= MISFIT:
            return f"The readings fit: they are {far}."
        return (
            f"**The readings do not fit**: they are {far}. Some other number on the card, or a "
            "reading, must be wrong."
        )


def fit(
    rig: Rig,
    readings: Mapping[str, float],
    unknown: Sequence[str],
    weather: Weather,
    fuel: Fuel,
) -> Fit:
    r"""Return the card that suits the readings best without straying from what it said.

    .. math:: \min_x \sum_i \left(\frac{y_i - m_i(x)}{u_i}\right)^2
              + \sum_j \left(\frac{\ln x_j - \ln x_{0j}}{0.3}\right)^2

    Parameters
    ----------
    rig
        The card with a first guess for what is unknown.
    readings
        What was read on the car, by the check's name [SI].
    unknown
        Entries to find, such as ``"low_speed.jet_bore"``; each must be positive.
    weather, fuel
        What the car was read in and with.

    Returns
    -------
    Fit
        With the uncertainties that readings and card leave.

    Raises
    ------
    RangeError
        If a check or an entry is not known, or an entry is not positive.
    ConvergenceError
        If the search does not settle.

    References
    ----------
    Damped Gauss-Newton, K. Levenberg, Q. Appl. Math. 2, 1944; the prior makes it well posed.
    """
    checks = [find(name) for name in readings]
    start = [value_of(rig, entry) for entry in unknown]
    if not min(start, default=1.0) > 0:
        raise RangeError(f"entries to be found must be positive, got {start}")
    free = [Dial(entry, value, PRIOR) for entry, value in zip(unknown, start, strict=True)]
    home = warmed(rig, weather, fuel, by_vacuum=True)
    read = [
        (check, float(value), check.uncertainty(float(value)))
        for check, value in zip(checks, readings.values(), strict=True)
    ]

    def residual(turns: Row) -> Row:
        car = changed(home, free, turns)
        return [(value - check.read(car)) / doubt for check, value, doubt in read]

    found = settled(residual, len(free))
    entries = {dial.entry: dial.at(by) for dial, by in zip(free, found.turns, strict=True)}
    left = covariance(found.slope, len(free))
    spread = [PRIOR * sqrt(row[at]) for at, row in enumerate(left)]
    return Fit(
        turned(rig, free, found.turns),
        entries,
        {name: entries[name] * one for name, one in zip(entries, spread, strict=True)},
        root_mean_square(found.off),
    )


def changed(home: Warmed, free: Sequence[Dial], turns: Row) -> Subject:
    """Return a car much like `home`, each dial so many uncertainties up, its idle set anew."""
    rig = turned(home.rig, free, turns)
    if all(getattr(rig, name) == getattr(home.rig, name) for name in (*RUNNING, "second")):
        return Subject(replace(home, rig=rig), rig)
    return Subject(warmed(rig, home.weather, home.fuel, near=home, by_vacuum=True), rig)

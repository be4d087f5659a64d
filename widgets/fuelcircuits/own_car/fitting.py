"""Find entries of a card that nobody could measure from readings that somebody could take."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.diagnosis.checks import find
from fuelcircuits.diagnosis.subject import Subject, Warmed, warmed
from fuelcircuits.errors import CircuitError, ConvergenceError, RangeError
from fuelcircuits.own_car.entry_text import entry_meaning, entry_text
from fuelcircuits.own_car.leeway import RUNNING, Dial, turned, value_of
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig

__all__ = ["PRIOR", "Fit", "Settled", "fit", "settled", "slopes"]

Floats = NDArray[np.float64]

PRIOR = 0.3
"""How far an entry may be off the card before it counts as one uncertainty [1], in relation to
itself; common practice, no source."""
MISFIT = 2.0
"""Misfit beyond which something else is wrong [1]; common practice, no source."""
_STEP, _DONE, _ROUGH, _ROUNDS = 0.01, 3e-3, 0.05, 20
_MOST = 2.5
"""The most that an entry moves in one round, in uncertainties [1]."""


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
        return self._repr_markdown_()

    def _repr_markdown_(self) -> str:
        """Show what was found in a notebook."""
        lines = ["| entry | found | give or take |", "| --- | --- | --- |"]
        for name, value in self.entries.items():
            found, doubt = entry_text(name, value), entry_text(name, self.doubt[name])
            lines.append(f"| {entry_meaning(name)} | {found} | {doubt} |")
        odd = (
            ""
            if self.misfit <= MISFIT
            else (" That is much: some other number on the card, or a reading, must be wrong.")
        )
        return "\n".join([*lines, "", f"Misfit {self.misfit:.1f}.{odd}"])


class Settled(NamedTuple):
    """Where a search has come to, in uncertainties of what it moves."""

    turns: Floats
    covariance: Floats
    first: Floats
    """How the residuals change with each turn, where the search began [1]."""
    off: Floats
    """What is left of the residuals [1]."""


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
    measured = np.array(list(readings.values()), dtype=float)
    doubt = np.array([c.uncertainty(y) for c, y in zip(checks, readings.values(), strict=True)])

    def residual(turns: Floats) -> Floats:
        car = changed(home, free, turns)
        return np.asarray((measured - [check.read(car) for check in checks]) / doubt)

    found = settled(residual, len(free))
    entries = {dial.entry: dial.at(by) for dial, by in zip(free, found.turns, strict=True)}
    spread = PRIOR * np.sqrt(np.diag(found.covariance))
    return Fit(
        turned(rig, free, found.turns.tolist()),
        entries,
        {name: float(entries[name] * one) for name, one in zip(entries, spread, strict=True)},
        float(np.sqrt(np.mean(found.off**2))),
    )


def changed(home: Warmed, free: Sequence[Dial], turns: Floats) -> Subject:
    """Return a car much like `home`, each dial so many uncertainties up, its idle set anew."""
    rig = turned(home.rig, free, turns.tolist())
    if all(getattr(rig, name) == getattr(home.rig, name) for name in (*RUNNING, "second")):
        return Subject(replace(home, rig=rig), rig)
    return Subject(warmed(rig, home.weather, home.fuel, near=home, by_vacuum=True), rig)


def settled(
    residual: Callable[[Floats], Floats],
    count: int,
    *,
    roughly: bool = False,
    start: Floats | None = None,
) -> Settled:
    """Return the turns that leave least of residuals and turns, each counted in uncertainties.

    The search begins at no turns, or at `start` where that leaves less.

    The slopes are worked out once, and corrected from what every step has shown; unless it is
    done `roughly`, once more where the search ends.

    Raises
    ------
    ConvergenceError
        If the search does not settle.

    References
    ----------
    C. G. Broyden, A class of methods for solving nonlinear simultaneous equations, 1965.
    """
    turns = np.zeros(count)
    now = residual(turns)
    there = None if start is None else _tried(residual, start)
    if start is not None and there is not None and _cost(there, start) < _cost(now, turns):
        turns, now = start, there
    first = slope = slopes(residual, turns, now)
    fresh = True
    for _ in range(_ROUNDS):
        step, then = _better(residual, turns, now, slope)
        end = then is None or np.max(np.abs(step), initial=0.0) < (_ROUGH if roughly else _DONE)
        if end and (fresh or roughly):
            normal: Floats = slope.T @ slope + np.eye(count)
            inverse: Floats = np.asarray(np.linalg.inv(normal), dtype=float)
            return Settled(turns, inverse, first, now)
        if end:
            slope, fresh = slopes(residual, turns, now), True
            continue
        assert then is not None
        slope = slope + np.outer(then - now - slope @ step, step) / (step @ step)
        turns, now, fresh = turns + step, then, False
    raise ConvergenceError(f"fit must settle within {_ROUNDS} rounds, still moves by {step}")


def _better(
    residual: Callable[[Floats], Floats], turns: Floats, now: Floats, slope: Floats
) -> tuple[Floats, Floats | None]:
    """Return a step that leaves less, and the residuals there; no step if none does."""
    normal, push = slope.T @ slope + np.eye(turns.size), -slope.T @ now - turns
    damping = 1e-3
    while damping < 1e5:
        step = np.linalg.solve(normal + damping * np.diag(np.diag(normal)), push)
        step = np.clip(step, -_MOST, _MOST)
        then = _tried(residual, turns + step)
        if then is not None and _cost(then, turns + step) <= _cost(now, turns):
            return step, then
        damping *= 10
    return np.zeros(turns.size), None


def slopes(residual: Callable[[Floats], Floats], turns: Floats, now: Floats) -> Floats:
    """Return how the residuals change with each turn; not at all where nothing balances."""
    columns = []
    for step in np.eye(turns.size) * _STEP:
        there = _tried(residual, turns + step)
        columns.append(np.zeros_like(now) if there is None else (there - now) / _STEP)
    return np.stack(columns, axis=-1) if columns else np.zeros((now.size, 0))


def _tried(residual: Callable[[Floats], Floats], turns: Floats) -> Floats | None:
    """Return the residuals, or nothing where the card leaves its range or nothing balances."""
    try:
        return residual(turns)
    except CircuitError:
        return None


def _cost(off: Floats, turns: Floats) -> float:
    return float(off @ off + turns @ turns)

"""Find entries of a card that nobody could measure from readings that somebody could take."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.diagnosis.checks import find
from fuelcircuits.diagnosis.subject import Subject, warmed
from fuelcircuits.errors import ConvergenceError, RangeError
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig

__all__ = ["Fit", "fit", "with_entries"]

Floats = NDArray[np.float64]

PRIOR = 0.3
"""How far an entry may be off the card before it counts as one uncertainty [1], in relation to
itself; common practice, no source."""
_STEP, _DONE, _ROUNDS = 1e-3, 1e-4, 20


class Fit(NamedTuple):
    """A card whose unknown entries suit the readings as well as the model allows."""

    rig: Rig
    entries: dict[str, float]
    """Each entry fitted [SI]."""
    doubt: dict[str, float]
    """Its standard uncertainty [SI]."""
    misfit: float
    """Root mean square of (read less expected) over the standard uncertainty [1]."""


def with_entries(rig: Rig, entries: Mapping[str, float]) -> Rig:
    """Return `rig` with entries changed, each named by section and field with a dot between.

    Raises
    ------
    RangeError
        If the rig has no such section or entry, or a value is out of the entry's range.
    """
    for entry, number in entries.items():
        section, field = _named(rig, entry)
        part = replace(getattr(rig, section), **{field: float(number)})
        rig = replace(rig, **{section: part})
    return rig


def _named(rig: Rig, entry: str) -> tuple[str, str]:
    """Return section and field of an entry; raise `RangeError` if the card has it not."""
    section, _, field = entry.partition(".")
    if not hasattr(getattr(rig, section, None), field):
        raise RangeError(f"entry must be on the card, got {entry}")
    return section, field


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
    named = [_named(rig, entry) for entry in unknown]
    start = np.array([getattr(getattr(rig, part), field) for part, field in named])
    if not np.all(start > 0):
        raise RangeError(f"entries to be found must be positive, got {start.tolist()}")

    def model(shift: Floats) -> Floats:
        changed = with_entries(rig, dict(zip(unknown, start * np.exp(shift), strict=True)))
        car = Subject(warmed(changed, weather, fuel), changed)
        return np.array([check.read(car) for check in checks])

    measured = np.array(list(readings.values()), dtype=float)
    doubt = np.array([c.uncertainty(y) for c, y in zip(checks, readings.values(), strict=True)])
    shift, spread, off = _search(lambda x: (measured - model(x)) / doubt, len(unknown))
    found = start * np.exp(shift)
    return Fit(
        with_entries(rig, dict(zip(unknown, found, strict=True))),
        dict(zip(unknown, found.tolist(), strict=True)),
        dict(zip(unknown, (found * spread).tolist(), strict=True)),
        float(np.sqrt(np.mean(off**2))),
    )


def _search(residual: Callable[[Floats], Floats], count: int) -> tuple[Floats, Floats, Floats]:
    """Return the best shift, its standard uncertainty, and what is left of the residuals."""
    shift, damping = np.zeros(count), 1e-3
    now = residual(shift)
    for _ in range(_ROUNDS):
        slope = _slope(residual, shift, now)
        normal = slope.T @ slope + np.eye(count) / PRIOR**2
        push = -slope.T @ now - shift / PRIOR**2
        while damping < 1e6:
            step = np.clip(
                np.linalg.solve(normal + damping * np.diag(np.diag(normal)), push), -1, 1
            )
            then = residual(shift + step)
            if _cost(then, shift + step) <= _cost(now, shift):
                break
            damping *= 10
        shift, now, damping = shift + step, then, damping / 10
        if np.max(np.abs(step)) < _DONE:
            return shift, np.sqrt(np.diag(np.linalg.inv(normal))), now
    raise ConvergenceError(f"fit must settle within {_ROUNDS} rounds, still moves by {step}")


def _slope(residual: Callable[[Floats], Floats], shift: Floats, now: Floats) -> Floats:
    """Return how the residuals change with each entry."""
    steps = np.eye(shift.size) * _STEP
    return np.stack([(residual(shift + step) - now) / _STEP for step in steps], axis=-1)


def _cost(off: Floats, shift: Floats) -> float:
    return float(off @ off + shift @ shift / PRIOR**2)

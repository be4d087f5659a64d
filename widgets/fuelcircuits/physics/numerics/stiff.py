"""Parts that settle far faster than they are driven: an implicit rule for a few states."""

from collections.abc import Callable
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from fuelcircuits.errors import ConvergenceError, RangeError

__all__ = ["integrate_stiff"]

Floats = NDArray[np.float64]

GAMMA = 0.5
STAGES = ((), (0.0,), (2.0, 0.0), (2.0, 0.0, 1.0))
COUPLINGS = ((), (4.0,), (1.0, -1.0), (1.0, -1.0, -8 / 3))
NODES = (0.0, 0.0, 1.0, 1.0)
DRIFTS = (0.5, 1.5, 0.0, 0.0)
WEIGHTS = (2.0, 0.0, 1.0, 1.0)
"""Coefficients of the Rosenbrock method RODAS3 of order 3; the last stage is the error."""


def integrate_stiff(
    rate: Callable[[float, Floats], Any],
    state: ArrayLike,
    times: ArrayLike,
    *,
    absolute: ArrayLike,
    relative: float = 1e-6,
    name: str = "state",
) -> Floats:
    r"""Return the state at each of `times`, as `ode.integrate` does, for stiff motion.

    .. math::
        \left(\frac{1}{\gamma h} - J\right) K_i
        = f\left(t + \alpha_i h, y + \sum_j a_{ij} K_j\right)
        + \sum_j \frac{c_{ij}}{h} K_j + \gamma_i h \frac{\partial f}{\partial t}

    A linear system is solved in each stage, so the step is as long as the motion allows and
    not as short as its fastest settling asks for.

    Parameters
    ----------
    rate, times, relative, name
        As in `ode.integrate`; the rate also takes copies of the state, on an axis after the
        first, and gives that of each.
    state
        State at ``times[0]``; the first axis holds what moves together, others runs of
        their own.
    absolute
        Error allowed a step in each row of the state, in its own unit.

    Returns
    -------
    Those of `ode.integrate`: states with the first axis over time; `RangeError` if the times
    do not rise; `ConvergenceError` if the rate is not finite or the step shrinks to nothing.

    References
    ----------
    A. Sandu et al., Atmospheric Environment 31 (1997), pages 3459-3472.
    """
    when, start = np.asarray(times, dtype=float), np.asarray(state, dtype=float)
    if not np.all(np.diff(when) > 0):
        raise RangeError(f"times must rise, got {when}")
    allowed = np.asarray(absolute, dtype=float).reshape(-1, *[1] * (start.ndim - 1))
    states, step = np.empty((len(when), *start.shape)), 1e-3 * (when[-1] - when[0])
    states[0] = start
    for i in range(1, len(when)):
        now, moved = when[i - 1], states[i - 1]
        while now < when[i]:
            used = min(step, when[i] - now)
            fresh, error = _step(rate, now, moved, used, allowed)
            size = np.max(np.abs(error) / (allowed + relative * np.abs(fresh)), initial=0.0)
            if not (np.isfinite(size) and used > 1e-13 * (1 + abs(now))):
                raise ConvergenceError(
                    f"{name} must change at a finite rate, got none at {now:g} s"
                )
            if size <= 1:
                now = when[i] if used == when[i] - now else now + used
                moved = fresh
            grown = used * min(4.0, max(0.2, 0.9 * (float(size) + 1e-12) ** (-1 / 3)))
            step = max(step, grown) if size <= 1 and used < step else grown
        states[i] = moved
    return states


def _step(
    rate: Callable[[float, Floats], Any], now: float, state: Floats, step: float, scale: Floats
) -> tuple[Floats, Floats]:
    """Return the state one step on and its estimated error."""
    first, jacobian = _linear(rate, now, state, scale)
    nudge = 1e-4 * step
    drift = (np.asarray(rate(now + nudge, state)) - first) / nudge
    inverse = np.linalg.inv(np.eye(len(state)) / (GAMMA * step) - jacobian)
    parts: list[Floats] = []
    for row, pulls, node, pace in zip(STAGES, COUPLINGS, NODES, DRIFTS, strict=True):
        value = first
        if any(row):
            value = np.asarray(rate(now + node * step, state + _sum(row, parts)))
        right = value + _sum(pulls, parts) / step + pace * step * drift
        parts.append(np.einsum("...ij,j...->i...", inverse, right))
    return state + _sum(WEIGHTS, parts), parts[-1]


def _sum(weights: tuple[float, ...], parts: list[Floats]) -> Any:
    """Return the weighted sum of some parts, nought of none."""
    return sum(weight * part for weight, part in zip(weights, parts, strict=True) if weight)


def _linear(
    rate: Callable[[float, Floats], Any], now: float, state: Floats, scale: Floats
) -> tuple[Floats, Floats]:
    """Return each rate, and its derivative to each state on the last axis of the second."""
    nudge = 1e-7 * np.abs(state) + 1e-2 * scale
    index = np.arange(len(state))
    copies = np.repeat(state[:, None], len(state) + 1, axis=1)
    copies[index, index + 1] += nudge
    rates = np.asarray(rate(now, copies))
    slopes = (rates[:, 1:] - rates[:, :1]) / nudge
    return rates[:, 0], np.moveaxis(slopes, (0, 1), (-2, -1))

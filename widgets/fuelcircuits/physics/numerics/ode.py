"""How a circuit moves in time: one adaptive Runge-Kutta rule for every moving part."""

from collections.abc import Callable
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from fuelcircuits.errors import ConvergenceError, RangeError

__all__ = ["integrate"]

Floats = NDArray[np.float64]

NODES = (1 / 5, 3 / 10, 4 / 5, 8 / 9, 1, 1)
STAGES = tuple(
    np.array(row)
    for row in (
        (1 / 5,),
        (3 / 40, 9 / 40),
        (44 / 45, -56 / 15, 32 / 9),
        (19372 / 6561, -25360 / 2187, 64448 / 6561, -212 / 729),
        (9017 / 3168, -355 / 33, 46732 / 5247, 49 / 176, -5103 / 18656),
        (35 / 384, 0, 500 / 1113, 125 / 192, -2187 / 6784, 11 / 84),
    )
)
"""Dormand and Prince's coefficients; the last row is the fifth-order step itself."""
ERRORS = np.array([71 / 57600, 0, -71 / 16695, 71 / 1920, -17253 / 339200, 22 / 525, -1 / 40])
"""Fifth-order step less the embedded fourth-order step."""


def integrate(
    rate: Callable[[float, Floats], Any],
    state: ArrayLike,
    times: ArrayLike,
    *,
    relative: float = 1e-8,
    absolute: float | Floats = 1e-12,
    largest: float = np.inf,
    name: str = "state",
) -> Floats:
    """Return the state at each of `times`, starting from `state` at the first of them.

    Dormand and Prince's embedded pair of orders 5 and 4, with the step chosen so that
    the estimated error of every element stays below ``absolute + relative * |state|``.
    A step always ends on the next of `times`, so an input may have a corner there; where it
    jumps, integrate up to the jump and start afresh.

    Parameters
    ----------
    rate
        Rate of change; called with the time [s] and the state, returns the state's shape.
    state
        State at ``times[0]``; any shape, so that many runs can be followed at once.
    times
        Rising times at which the state is wanted [s].
    relative, absolute
        Error allowed a step, as a share of the state [1] and in its own unit.
    largest
        Longest step allowed [s].
    name
        What the state is, for the message of an error.

    Returns
    -------
    numpy.ndarray
        States, the first axis running over `times`.

    Raises
    ------
    RangeError
        If the times do not rise.
    ConvergenceError
        If the rate is not finite or the step has to shrink to nothing.

    References
    ----------
    J. R. Dormand and P. J. Prince, J. Computational and Applied Mathematics 6 (1980),
    pages 19-26.
    """
    when = np.asarray(times, dtype=float)
    if not np.all(np.diff(when) > 0):
        raise RangeError(f"times must rise, got {when}")
    states = np.empty((len(when), *np.shape(state)))
    states[0] = state
    step = min(largest, 1e-3 * (when[-1] - when[0])) if len(when) > 1 else largest
    here = states[0], np.asarray(rate(when[0], states[0])), step
    for i in range(1, len(when)):
        here = _reach(rate, here, (when[i - 1], when[i], largest), (relative, absolute), name)
        states[i] = here[0]
    return states


def _reach(
    rate: Callable[[float, Floats], Any],
    here: tuple[Floats, Floats, float],
    span: tuple[float, float, float],
    allowed: tuple[float, float | Floats],
    name: str,
) -> tuple[Floats, Floats, float]:
    """Return the state and its rate at the end of the span, and the step to go on with."""
    now, end, largest = span
    state, first, wanted = here
    while now < end:
        step = min(wanted, largest, end - now)
        fresh, last, error = _step(rate, (now, state, first), step)
        scale = allowed[1] + allowed[0] * np.maximum(np.abs(state), np.abs(fresh))
        size = float(np.max(np.abs(error) / scale, initial=0.0))
        if not (step > 1e-14 * (1 + abs(now)) or step == end - now) or not np.isfinite(size):
            raise ConvergenceError(f"{name} must change at a finite rate, got {first} at {now:g} s")
        if size <= 1:
            now = end if step == end - now else now + step
            state, first = fresh, last
            if step < wanted and size < 0.1:
                continue
        wanted = step * min(5.0, max(0.2, 0.9 * (size + 1e-12) ** -0.2))
    return state, first, wanted


def _step(
    rate: Callable[[float, Floats], Any], start: tuple[float, Floats, Floats], step: float
) -> tuple[Floats, Floats, Floats]:
    """Return the state one step on, the rate there, and the estimated error."""
    now, state, first = start
    slopes = np.empty((len(ERRORS), *state.shape))
    slopes[0], rows = first, slopes.reshape(len(ERRORS), -1)
    for i, (node, weights) in enumerate(zip(NODES, STAGES, strict=True), start=1):
        fresh = state + ((step * weights) @ rows[:i]).reshape(state.shape)
        slopes[i] = rate(now + node * step, fresh)
    return fresh, slopes[-1], ((step * ERRORS) @ rows).reshape(state.shape)

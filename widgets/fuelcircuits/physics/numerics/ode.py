"""How a circuit moves in time: one adaptive Runge-Kutta rule for every moving part."""

from collections.abc import Callable, Sequence
from itertools import pairwise
from math import isfinite
from operator import mul
from typing import NamedTuple

from fuelcircuits.errors import ConvergenceError, RangeError

__all__ = ["integrate"]

Rate = Callable[[float, list[float]], Sequence[float]]

NODES = (1 / 5, 3 / 10, 4 / 5, 8 / 9, 1.0, 1.0)
STAGES = (
    (1 / 5,),
    (3 / 40, 9 / 40),
    (44 / 45, -56 / 15, 32 / 9),
    (19372 / 6561, -25360 / 2187, 64448 / 6561, -212 / 729),
    (9017 / 3168, -355 / 33, 46732 / 5247, 49 / 176, -5103 / 18656),
    (35 / 384, 0.0, 500 / 1113, 125 / 192, -2187 / 6784, 11 / 84),
)
"""Dormand and Prince's coefficients; the last row is the fifth-order step itself."""
ERRORS = (71 / 57600, 0.0, -71 / 16695, 71 / 1920, -17253 / 339200, 22 / 525, -1 / 40)
"""Fifth-order step less the embedded fourth-order step."""


class _Here(NamedTuple):
    """Where a march has come to."""

    time: float
    state: list[float]
    rate: Sequence[float]
    wanted: float  # s, the next step


class _Allowed(NamedTuple):
    """The error allowed a step."""

    relative: float
    absolute: Sequence[float]


def integrate(
    rate: Rate,
    state: Sequence[float],
    times: Sequence[float],
    *,
    relative: float = 1e-8,
    absolute: float | Sequence[float] = 1e-12,
    name: str = "state",
) -> list[list[float]]:
    """Return the state at each of `times`, starting from `state` at the first of them.

    Dormand and Prince's embedded pair of orders 5 and 4, with the step chosen so that
    the estimated error of every element stays below ``absolute + relative * |state|``.
    A step always ends on the next of `times`, so an input may have a corner there; where it
    jumps, integrate up to the jump and start afresh.

    Parameters
    ----------
    rate
        Rate of change of every element; called with the time [s] and the state.
    state
        State at ``times[0]``.
    times
        Rising times at which the state is wanted [s].
    relative, absolute
        Error allowed a step, as a share of the state [1] and in its own unit; the second
        one for all elements or one for each, positive where a state may be nought.
    name
        What the state is, for the message of an error.

    Returns
    -------
    list of lists
        The state at each of `times`.

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
    if not all(before < after for before, after in pairwise(times)):
        raise RangeError(f"times must rise, got {list(times)}")
    start, first = list(state), times[0]
    each = [absolute] * len(start) if isinstance(absolute, (int, float)) else absolute
    here = _Here(first, start, rate(first, start), 1e-3 * (times[-1] - first))
    states = [start]
    for end in times[1:]:
        here = _reach(rate, here, end, _Allowed(relative, each), name)
        states.append(here.state)
    return states


def _reach(rate: Rate, here: _Here, end: float, allowed: _Allowed, name: str) -> _Here:
    """Return where the march is at the end of a span."""
    now, state, first, wanted = here
    while now < end:
        step = min(wanted, end - now)
        fresh, last, error = _step(rate, now, state, first, step)
        size = _share(error, state, fresh, allowed)
        if not (step > 1e-14 * (1 + abs(now)) or step == end - now) or not isfinite(size):
            raise ConvergenceError(f"{name} must change at a finite rate, got {first} at {now:g} s")
        if size <= 1:
            now = end if step == end - now else now + step
            state, first = fresh, last
            if step < wanted and size < 0.1:
                continue
        wanted = step * min(5.0, max(0.2, 0.9 * (size + 1e-12) ** -0.2))
    return _Here(end, state, first, wanted)


def _share(error: list[float], state: list[float], fresh: list[float], allowed: _Allowed) -> float:
    """Return the largest error over what is allowed, or what is not finite of them."""
    relative, absolute = allowed
    shares = [
        abs(miss) / (least + relative * max(abs(old), abs(new)))
        for miss, old, new, least in zip(error, state, fresh, absolute, strict=True)
    ]
    total = sum(shares)
    return max(shares) if isfinite(total) else total


def _step(
    rate: Rate, now: float, state: list[float], first: Sequence[float], step: float
) -> tuple[list[float], Sequence[float], list[float]]:
    """Return the state one step on, the rate there, and the estimated error."""
    slopes, fresh = [first], state
    for node, weights in zip(NODES, STAGES, strict=True):
        fresh = [
            place + step * sum(map(mul, weights, column))
            for place, column in zip(state, zip(*slopes, strict=True), strict=True)
        ]
        slopes.append(rate(now + node * step, fresh))
    error = [step * sum(map(mul, ERRORS, column)) for column in zip(*slopes, strict=True)]
    return fresh, slopes[-1], error

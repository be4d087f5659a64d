"""Parts that settle far faster than they are driven: an implicit rule for a few states."""

from collections.abc import Callable, Sequence
from itertools import pairwise
from math import isfinite

from fuelcircuits.errors import ConvergenceError, RangeError
from fuelcircuits.physics.numerics.linear import dot, inverse

__all__ = ["integrate_stiff"]

Rate = Callable[[float, list[float]], Sequence[float]]

GAMMA = 0.5
STAGES = ((), (0.0,), (2.0, 0.0), (2.0, 0.0, 1.0))
COUPLINGS = ((), (4.0,), (1.0, -1.0), (1.0, -1.0, -8 / 3))
NODES = (0.0, 0.0, 1.0, 1.0)
DRIFTS = (0.5, 1.5, 0.0, 0.0)
WEIGHTS = (2.0, 0.0, 1.0, 1.0)
"""Coefficients of the Rosenbrock method RODAS3 of order 3; the last stage is the error."""


def integrate_stiff(
    rate: Rate,
    state: Sequence[float],
    times: Sequence[float],
    *,
    absolute: Sequence[float],
    relative: float = 1e-6,
    name: str = "state",
) -> list[list[float]]:
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
        As in `ode.integrate`.
    state
        State at ``times[0]``.
    absolute
        Error allowed a step in each element of the state, in its own unit.

    Returns
    -------
    Those of `ode.integrate`: the state at each of `times`; `RangeError` if the times do not
    rise; `ConvergenceError` if the rate is not finite or the step shrinks to nothing.

    References
    ----------
    A. Sandu et al., Atmospheric Environment 31 (1997), pages 3459-3472.
    """
    if not all(before < after for before, after in pairwise(times)):
        raise RangeError(f"times must rise, got {list(times)}")
    moved, now, step = list(state), times[0], 1e-3 * (times[-1] - times[0])
    states = [moved]
    for end in times[1:]:
        while now < end:
            used = min(step, end - now)
            fresh, error = _step(rate, now, moved, used, absolute)
            size = _share(error, fresh, absolute, relative)
            if not (isfinite(size) and used > 1e-13 * (1 + abs(now))):
                raise ConvergenceError(
                    f"{name} must change at a finite rate, got none at {now:g} s"
                )
            if size <= 1:
                now = end if used == end - now else now + used
                moved = fresh
            grown = used * min(4.0, max(0.2, 0.9 * (size + 1e-12) ** (-1 / 3)))
            step = max(step, grown) if size <= 1 and used < step else grown
        states.append(moved)
    return states


def _share(
    error: list[float], fresh: list[float], absolute: Sequence[float], relative: float
) -> float:
    """Return the largest error over what is allowed, or what is not finite of them."""
    shares = [
        abs(miss) / (least + relative * abs(new))
        for miss, new, least in zip(error, fresh, absolute, strict=True)
    ]
    total = sum(shares)
    return max(shares) if isfinite(total) else total


def _step(
    rate: Rate, now: float, state: list[float], step: float, scale: Sequence[float]
) -> tuple[list[float], list[float]]:
    """Return the state one step on and its estimated error."""
    first = rate(now, state)
    nudge = 1e-4 * step
    drift = [(b - a) / nudge for a, b in zip(first, rate(now + nudge, state), strict=True)]
    solved = inverse(_stiffness(rate, now, state, first, scale=scale, pace=1 / (GAMMA * step)))
    parts: list[list[float]] = []
    for row, pulls, node, pace in zip(STAGES, COUPLINGS, NODES, DRIFTS, strict=True):
        value = rate(now + node * step, _moved(state, row, parts)) if any(row) else first
        right = [a + pace * step * b for a, b in zip(value, drift, strict=True)]
        pulled = _moved(right, [pull / step for pull in pulls], parts)
        parts.append([dot(line, pulled) for line in solved])
    return _moved(state, WEIGHTS, parts), parts[-1]


def _moved(state: list[float], weights: Sequence[float], parts: list[list[float]]) -> list[float]:
    """Return the state with the weighted sum of some parts added."""
    if not parts:
        return state
    columns = zip(*parts, strict=True)
    return [a + dot(weights, column) for a, column in zip(state, columns, strict=True)]


def _stiffness(
    rate: Rate,
    now: float,
    state: list[float],
    first: Sequence[float],
    *,
    scale: Sequence[float],
    pace: float,
) -> list[list[float]]:
    """Return `pace` on a diagonal less the derivative of each rate to each state."""
    columns = []
    for j, (place, least) in enumerate(zip(state, scale, strict=True)):
        nudge = 1e-7 * abs(place) + 1e-2 * least
        shifted = rate(now, [*state[:j], place + nudge, *state[j + 1 :]])
        column = [(a - b) / nudge for a, b in zip(first, shifted, strict=True)]
        column[j] += pace
        columns.append(column)
    return [list(row) for row in zip(*columns, strict=True)]

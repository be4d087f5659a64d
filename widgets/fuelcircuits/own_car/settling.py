"""A search for the turns of many dials that leave least of a few readings, each with its doubt."""

from collections.abc import Callable, Sequence
from math import sqrt
from typing import NamedTuple, TypeAlias

from fuelcircuits.errors import CircuitError, ConvergenceError
from fuelcircuits.physics.numerics.linear import dot, inverse, solve

__all__ = [
    "Row",
    "Rows",
    "Settled",
    "across",
    "corrected",
    "covariance",
    "plus",
    "root_mean_square",
    "settled",
    "slopes",
]

Row: TypeAlias = Sequence[float]
Rows: TypeAlias = Sequence[Row]

_STEP, _DONE, _ROUGH, _ROUNDS = 0.01, 3e-3, 0.05, 20
_NEAR = 1.0
"""Residual within which a rough search may end [1]."""
_MOST = 2.5
"""The most that an entry moves in one round, in uncertainties [1]."""


class Settled(NamedTuple):
    """Where a search has come to, in uncertainties of what it moves."""

    turns: Row
    slope: Rows
    """How the residuals change with each turn, where the search ended [1]; a row a residual."""
    first: Rows
    """The same where it began [1]."""
    off: Row
    """What is left of the residuals [1]."""


def settled(
    residual: Callable[[Row], Row],
    count: int,
    *,
    roughly: bool = False,
    start: Row | None = None,
) -> Settled:
    """Return the turns that leave least of residuals and turns, each counted in uncertainties.

    The search begins at no turns, or at `start` where that leaves less.

    The slopes are worked out once, and corrected from what every step has shown; then once more
    where the search ends, unless it is done `roughly` and no residual is left beyond `_NEAR`.

    Raises
    ------
    ConvergenceError
        If the search does not settle.

    References
    ----------
    C. G. Broyden, A class of methods for solving nonlinear simultaneous equations, 1965.
    """
    turns: Row = [0.0] * count
    now = residual(turns)
    there = None if start is None else _tried(residual, start)
    if start is not None and there is not None and _cost(there, start) < _cost(now, turns):
        turns, now = start, there
    first = slope = slopes(residual, turns, now)
    fresh = True
    for _ in range(_ROUNDS):
        step, then = _better(residual, turns, now, slope)
        moved = max(map(abs, step), default=0.0)
        end = then is None or moved < (_ROUGH if roughly else _DONE)
        if end and (fresh or (roughly and max(map(abs, now), default=0.0) <= _NEAR)):
            return Settled(turns, slope, first, now)
        if end:
            slope, fresh = slopes(residual, turns, now), True
            continue
        assert then is not None
        slope = corrected(slope, step, now, then)
        turns, now, fresh = plus(turns, step), then, False
    raise ConvergenceError(f"fit must settle within {_ROUNDS} rounds, still moves by {step}")


def _better(
    residual: Callable[[Row], Row], turns: Row, now: Row, slope: Rows
) -> tuple[Row, Row | None]:
    """Return a step that leaves less, and the residuals there; no step if none does."""
    columns = across(slope, len(turns))
    own = [1.0 + dot(column, column) for column in columns]
    push = [-dot(column, now) - turn for column, turn in zip(columns, turns, strict=True)]
    damping = 1e-3
    while damping < 1e5:
        step = _ridged(slope, [1.0 + damping * one for one in own], push)
        step = [min(max(one, -_MOST), _MOST) for one in step]
        there = plus(turns, step)
        then = _tried(residual, there)
        if then is not None and _cost(then, there) <= _cost(now, turns):
            return step, then
        damping *= 10
    return [0.0] * len(turns), None


def slopes(residual: Callable[[Row], Row], turns: Row, now: Row) -> Rows:
    """Return how the residuals change with each turn; not at all where nothing balances."""
    columns = []
    for at in range(len(turns)):
        there = _tried(residual, [*turns[:at], turns[at] + _STEP, *turns[at + 1 :]])
        columns.append(
            [
                0.0 if there is None else (b - a) / _STEP
                for a, b in zip(now, there or now, strict=True)
            ]
        )
    return across(columns, len(now))


def corrected(slope: Rows, step: Row, now: Row, then: Row) -> Rows:
    """Return the slopes with what a step has shown of them; Broyden's rule."""
    length = dot(step, step)
    missed = [(b - a - dot(row, step)) / length for row, a, b in zip(slope, now, then, strict=True)]
    return [
        [one + miss * by for one, by in zip(row, step, strict=True)]
        for row, miss in zip(slope, missed, strict=True)
    ]


def covariance(slope: Rows, count: int) -> list[list[float]]:
    """Return what readings with these slopes leave open of so many turns, each of spread 1."""
    columns = across(slope, count)
    return inverse(
        [
            [dot(column, other) + (1.0 if i == k else 0.0) for k, other in enumerate(columns)]
            for i, column in enumerate(columns)
        ]
    )


def across(rows: Rows, count: int) -> list[Row]:
    """Return the columns of a matrix of so many, as rows."""
    return [[row[at] for row in rows] for at in range(count)]


def plus(turns: Row, step: Row) -> list[float]:
    """Return the sum of two rows, number by number."""
    return [a + b for a, b in zip(turns, step, strict=True)]


def root_mean_square(row: Row) -> float:
    """Return the root of the mean of the squares."""
    return sqrt(dot(row, row) / len(row))


def _ridged(slope: Rows, ridge: Row, push: Row) -> list[float]:
    """Return x so that ``(slope.T slope + diag(ridge)) x`` is `push`.

    There are few readings and many dials, so the equations are put as one a reading.

    References
    ----------
    M. A. Woodbury, Inverting modified matrices, 1950.
    """
    thin = [[one / by for one, by in zip(row, ridge, strict=True)] for row in slope]
    small = [
        [dot(row, other) + (1.0 if i == k else 0.0) for k, other in enumerate(slope)]
        for i, row in enumerate(thin)
    ]
    share = solve(small, [dot(row, push) for row in thin])
    return [
        one / by - dot(column, share)
        for one, by, column in zip(push, ridge, across(thin, len(push)), strict=True)
    ]


def _tried(residual: Callable[[Row], Row], turns: Row) -> Row | None:
    """Return the residuals, or nothing where the card leaves its range or nothing balances."""
    try:
        return residual(turns)
    except CircuitError:
        return None


def _cost(off: Row, turns: Row) -> float:
    return dot(off, off) + dot(turns, turns)

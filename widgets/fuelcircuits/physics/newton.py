"""Newton's method for many small systems of equations at once.

The systems are columns: unknowns and residuals have the shape (equations, points). One call of
the residual with a further axis of shifted copies gives both the residual and its Jacobian, so
a step costs one call and one stacked `numpy.linalg.solve`.
"""

from collections.abc import Callable
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

__all__ = ["Found", "newton"]

Floats = NDArray[np.float64]
Residual = Callable[[Floats, NDArray[np.intp]], tuple[Floats, Floats]]

_STEADY = 4  # halvings of a step before the point is moved on regardless
_RIDGE = 1e-13  # [1], what is added to the diagonal so that an idle unknown does no harm


class Found(NamedTuple):
    """Where the iteration ended."""

    unknowns: Floats  # (equations, points)
    error: Floats  # largest residual over its measure, for each point
    worst: NDArray[np.intp]  # the equation that has it, for each point
    steps: int


def newton(
    residual: Residual,
    start: Floats,
    shift: Floats,
    reach: Floats,
    *,
    tolerance: float = 1e-11,
    most_steps: int = 80,
    damping: float = 0.0,
) -> Found:
    r"""Solve ``residual(x) = 0`` for every column of `start`.

    .. math:: J \, \Delta x = -r, \qquad x \leftarrow x + t\,\Delta x

    J by forward differences. The step is cut to `reach` in every unknown, and t is halved
    while the sum of squares of the scaled residuals does not fall; after a few halvings the
    point is moved all the same, which takes it across a corner of the equations.

    Parameters
    ----------
    residual
        Takes unknowns of shape (equations, copies, points) and the indices of those points
        in `start`; returns the residuals and a measure for each, in the same shape.
    start
        First guess, shape (equations, points).
    shift
        Difference step for each unknown, shape (equations,).
    reach
        Largest step allowed in each unknown, shape (equations,).
    tolerance
        Largest residual over its measure at which a point is done.
    most_steps
        Steps after which the points not done are given back as they are.
    damping
        Pseudo-time damping: share of the Jacobian's diagonal added to it, fading as the
        residual falls. 0 is Newton's own step.

    Returns
    -------
    Found
        Solution and the error left; the caller decides what is good enough.

    References
    ----------
    Newton's method with backtracking; Kelley and Keyes, SIAM J. Numer. Anal. 35 (1998), for
    the damping.
    """
    found, error = start.copy(), np.full(start.shape[1], np.inf)
    worst = np.zeros(start.shape[1], dtype=np.intp)
    active = np.arange(start.shape[1])
    point = _Point(residual, shift, found, active)
    steps = 0
    for steps in range(most_steps + 1):
        error[active], worst[active] = point.error, point.worst
        found[:, active] = point.unknowns
        left = ~(point.error <= tolerance)
        if not np.any(left) or steps == most_steps:
            break
        active = active[left]
        point.keep(left)
        point.step(residual, shift, reach, active, damping)
    return Found(found, error, worst, steps)


class _Point:
    """The columns still being solved: unknowns, residual, Jacobian, and how the step fares."""

    def __init__(
        self, residual: Residual, shift: Floats, start: Floats, active: NDArray[np.intp]
    ) -> None:
        self.unknowns = start.copy()
        self.size = np.ones(start.shape[1])
        self.tries = np.zeros(start.shape[1])
        self.level, self.error, self.worst, self.jacobian, self.measure = _linear(
            residual, shift, self.unknowns, active
        )

    def keep(self, left: NDArray[np.bool_]) -> None:
        """Drop the columns that are done."""
        if np.all(left):
            return
        for name in ("unknowns", "size", "tries", "level", "error", "worst", "measure"):
            setattr(self, name, getattr(self, name)[..., left])
        self.jacobian = self.jacobian[left]

    def step(
        self,
        residual: Residual,
        shift: Floats,
        reach: Floats,
        active: NDArray[np.intp],
        damping: float,
    ) -> None:
        """Try one step for every column; keep it where the residual falls."""
        move = _direction(self.jacobian, self.level, self.measure, damping)
        over = np.max(np.abs(move) / reach[:, None], axis=0)
        move = move * (self.size / np.maximum(1.0, over))
        tried = np.maximum(self.unknowns + move, 0.2 * self.unknowns)
        level, error, worst, jacobian, measure = _linear(residual, shift, tried, active)
        before, after = _norm(self.level, self.measure), _norm(level, self.measure)
        good = (after < before) | (self.tries >= _STEADY) | (error < self.error)
        self.unknowns = np.where(good, tried, self.unknowns)
        self.level = np.where(good, level, self.level)
        self.measure = np.where(good, measure, self.measure)
        self.error, self.worst = (
            np.where(good, error, self.error),
            np.where(good, worst, self.worst),
        )
        self.jacobian = np.where(good[:, None, None], jacobian, self.jacobian)
        self.tries = np.where(good, 0.0, self.tries + 1.0)
        self.size = np.where(good, np.minimum(1.0, 2.0 * self.size), 0.4 * self.size)


def _norm(level: Floats, measure: Floats) -> Floats:
    """Return the size of the scaled residual of each column."""
    return np.asarray(np.sum((level / measure) ** 2, axis=0))


def _direction(jacobian: Floats, level: Floats, measure: Floats, damping: float) -> Floats:
    """Return Newton's step, or the damped one."""
    size = np.abs(np.einsum("nii->ni", jacobian))
    scaled = np.abs(level / measure).T
    extra = size * (_RIDGE + damping * scaled / (1.0 + scaled)) + 1e-300
    matrix = jacobian + np.einsum("nii->ni", jacobian).sum() * 0.0
    sign = np.where(np.einsum("nii->ni", jacobian) < 0.0, -1.0, 1.0)
    index = np.arange(level.shape[0])
    matrix[:, index, index] += sign * extra
    return -np.linalg.solve(matrix, level.T[:, :, None])[:, :, 0].T


def _linear(
    residual: Residual, shift: Floats, unknowns: Floats, active: NDArray[np.intp]
) -> tuple[Floats, Floats, NDArray[np.intp], Floats, Floats]:
    """Return residual, error, worst equation, Jacobian and measures at `unknowns`."""
    count = unknowns.shape[0]
    copies = np.repeat(unknowns[:, None, :], count + 1, axis=1)
    index = np.arange(count)
    copies[index, index + 1, :] += shift[:, None]
    levels, measures = residual(copies, active)
    level, measure = levels[:, 0], measures[:, 0]
    jacobian = (levels[:, 1:] - level[:, None, :]) / shift[None, :, None]
    share = np.abs(level) / measure
    return level, share.max(axis=0), share.argmax(axis=0), jacobian.transpose(2, 0, 1), measure

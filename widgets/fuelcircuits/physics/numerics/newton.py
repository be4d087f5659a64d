"""Newton's method for many small systems of equations at once.

The systems are columns: unknowns and residuals have the shape (equations, points). One call of
the residual with a further axis of shifted copies gives both the residual and its Jacobian, so
a step costs one call and one stacked `numpy.linalg.solve`.
"""

from collections.abc import Callable
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

__all__ = ["Found", "Residual", "newton"]

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]
Residual = Callable[[Floats, Indices], tuple[Floats, Floats]]

_PATIENCE = 4  # cut steps before the point is moved on regardless
_RIDGE = 1e-14  # [1], added to the diagonal so that a part nothing passes does no harm


class Found(NamedTuple):
    """Where the iteration ended."""

    unknowns: Floats  # (equations, points)
    error: Floats  # largest residual over its measure, for each point
    worst: Indices  # the equation that has it, for each point
    steps: int
    slope: Floats  # at the last step's points, (points, equations, equations), over the scale


class _Line(NamedTuple):
    """The residual and its slope at some columns."""

    unknowns: Floats  # (equations, points)
    level: Floats  # (points, equations), residual over its scale
    slope: Floats  # (points, equations, equations), of that
    share: Floats  # (points, equations), residual over its measure

    def some(self, left: NDArray[np.bool_]) -> "_Line":
        return _Line(self.unknowns[:, left], self.level[left], self.slope[left], self.share[left])

    @property
    def error(self) -> Floats:
        return np.asarray(self.share.max(axis=1))

    @property
    def square(self) -> Floats:
        return np.asarray(np.sum(self.level**2, axis=1))


def newton(
    residual: Residual,
    start: Floats,
    shift: Floats,
    reach: Floats,
    scale: Floats,
    *,
    tolerance: float = 1e-10,
    most_steps: int = 80,
    damping: float = 0.0,
) -> Found:
    r"""Solve ``residual(x) = 0`` for every column of `start`.

    .. math:: J \, \Delta x = -r, \qquad x \leftarrow x + t\,\Delta x

    J is by forward differences. The step is cut to `reach` in every unknown, and t is cut
    while the sum of squares of the residuals over `scale` does not fall; after a few cuts the
    point is moved all the same, which takes it across a corner of the equations.

    Parameters
    ----------
    residual
        Takes unknowns of shape (equations, copies, points) and the indices of those points
        in `start`; returns the residuals in the same shape, and a positive measure for each
        of the first copy's, shape (equations, points).
    start
        First guess, shape (equations, points); every unknown stays positive.
    shift
        Difference step for each unknown, shape (equations,).
    reach
        Largest step allowed in each unknown, shape (equations,).
    scale
        What counts as a large residual of each equation, shape (equations,).
    tolerance
        Largest residual over its measure at which a point is done.
    most_steps
        Steps after which the points not done are given back as they are.
    damping
        Above 0 every part is given a store, as if it filled and emptied in time, and the steps
        are those of an implicit rule for it that lengthen as the residual falls; no step is
        cut or refused. The number is the store that `scale` fills by one `reach` in a step.
        A residual then has to fall as its own unknown rises. 0 is Newton's own step.

    Returns
    -------
    Found
        Solution and the error left; the caller decides what is good enough.

    References
    ----------
    Newton's method with backtracking; for the damping, C. T. Kelley and D. E. Keyes, SIAM J.
    Numer. Anal. 35 (1998), pages 508-523.
    """
    found, active = start.copy(), np.arange(start.shape[1])
    error, worst = np.full(active.size, np.inf), np.zeros(active.size, dtype=np.intp)
    size, cuts, steps = np.ones(active.size), np.zeros(active.size), 0
    line = _line(residual, shift, scale, start, active)
    while True:
        found[:, active], error[active] = line.unknowns, line.error
        worst[active] = line.share.argmax(axis=1)
        left = ~(line.error <= tolerance)
        if steps == most_steps or not np.any(left):
            return Found(found, error, worst, steps, line.slope)
        if not np.all(left):
            active, size, cuts = active[left], size[left], cuts[left]
            line = line.some(left)
        tried = _line(residual, shift, scale, _stepped(line, reach, size, damping), active)
        good = (tried.square < line.square) | (cuts >= _PATIENCE) | (damping > 0.0)
        line = _chosen(good, tried, line)
        cuts = np.where(good, 0.0, cuts + 1.0)
        size = np.where(good, np.minimum(1.0, 2.5 * size), 0.4 * size)
        size = np.where(cuts >= _PATIENCE, 1.0, size)
        steps += 1


def _line(
    residual: Residual, shift: Floats, scale: Floats, unknowns: Floats, active: Indices
) -> _Line:
    """Return residual and slope at `unknowns`."""
    count = unknowns.shape[0]
    copies = np.repeat(unknowns[:, None, :], count + 1, axis=1)
    index = np.arange(count)
    copies[index, index + 1, :] += shift[:, None]
    levels, measures = residual(copies, active)
    scaled = levels / scale[:, None, None]
    slope = (scaled[:, 1:] - scaled[:, :1]) / shift[None, :, None]
    share = np.abs(levels[:, 0] / measures)
    return _Line(unknowns, scaled[:, 0].T, slope.transpose(2, 0, 1), share.T)


def _stepped(line: _Line, reach: Floats, size: Floats, damping: float) -> Floats:
    """Return where a step of the given size leads."""
    index = np.arange(reach.size)
    diagonal = line.slope[:, index, index]
    matrix = line.slope.copy()
    matrix[:, index, index] -= _RIDGE * np.abs(diagonal) + 1e-300
    if damping > 0.0:
        matrix[:, index, index] -= damping / reach * np.minimum(np.sqrt(line.square), 1.0)[:, None]
    move = -np.linalg.solve(matrix, line.level[:, :, None])[:, :, 0].T
    over = np.max(np.abs(move) / reach[:, None], axis=0)
    moved = line.unknowns + move * (size / np.maximum(1.0, over))
    return np.asarray(np.maximum(moved, 0.2 * line.unknowns))


def _chosen(good: NDArray[np.bool_], tried: _Line, line: _Line) -> _Line:
    """Return the tried columns where they are good, the old ones elsewhere."""
    if np.all(good):
        return tried
    return _Line(
        np.where(good, tried.unknowns, line.unknowns),
        np.where(good[:, None], tried.level, line.level),
        np.where(good[:, None, None], tried.slope, line.slope),
        np.where(good[:, None], tried.share, line.share),
    )

"""Where a handful of balances are nought together.

Newton's method learns the slopes of all balances to all unknowns, which costs as many balances
as there are unknowns, and steps to where straight lines would meet. Near an answer the slopes
hardly change: there Broyden's rule corrects them by what each step has shown.
"""

from collections.abc import Callable, Sequence
from math import isfinite, sqrt
from operator import attrgetter
from typing import Any, Generic, NamedTuple, Protocol, TypeVar

from fuelcircuits.physics.numerics.linear import dot, inverse, solve

__all__ = ["Found", "Left", "System", "newton", "settled"]

Row = list[float]
Matrix = list[list[float]]
Result = TypeVar("Result")

_PATIENCE = 4  # cut steps before the unknowns are moved on regardless
_QUICK = 0.5  # [1], fall of the misfit in a step from which its slopes need no learning anew
_RIDGE = 1e-14  # [1], added to the diagonal so that a part nothing passes does no harm
_LEAST = 0.2  # [1], of an unknown that a step leaves at least


class Left(Protocol):
    """What is left over of each balance, and what it is measured by."""

    @property
    def level(self) -> Row:
        """What is left over."""

    @property
    def measure(self) -> Row:
        """What that is measured by, positive."""


Known = TypeVar("Known", bound=Left)


class System(Protocol[Known]):
    """Balances of as many unknowns, all positive."""

    reach: Row
    """Largest step allowed in each unknown."""
    scale: Row
    """What counts as a large rest of each balance."""

    def left(self, unknowns: Row) -> Known:
        """Return what is left over."""

    def slopes(self, unknowns: Row, here: Known) -> Matrix:
        """Return how each rest answers to each unknown."""


class Found(NamedTuple, Generic[Known]):
    """Where a search ended."""

    unknowns: Row
    left: Known
    error: float  # [1], largest rest over its measure
    misfit: float  # [1], root of the sum of squares of the rests over their scale
    inverse: Matrix | None  # of the slopes, if they are known


def newton(
    system: System[Known],
    start: Sequence[float],
    *,
    learnt: Matrix | None = None,
    tolerance: float = 3e-11,
    most_steps: int = 80,
) -> Found[Known] | None:
    r"""Return where Newton's method leads.

    With r the rests and H the inverse of their slopes,

    .. math:: \Delta x = -H r, \qquad x \leftarrow x + t\,\Delta x

    A step is cut to the system's reach in every unknown, and t is cut while the misfit does not
    fall; after a few cuts the unknowns are moved all the same, which takes them across a corner
    of the equations. Where a whole step has made the misfit fall fast, H is corrected by

    .. math:: H \leftarrow H + \frac{(\Delta x - H y)\, v^T}{v^T y}, \qquad v_i = y_i / m_i^2

    with y the change of r and m what r is measured by; else the slopes are learnt anew.

    Parameters
    ----------
    system
        The balances.
    start
        First guess.
    learnt
        Inverse of slopes learnt not far away.
    tolerance
        Largest rest over its measure with which the search is done.
    most_steps
        Steps after which it ends where it is.

    Returns
    -------
    Found
        None if the balances have no value at the start. The caller decides which error will do.

    References
    ----------
    Newton's method with backtracking; C. G. Broyden, Mathematics of Computation 19 (1965),
    pages 577-593, for his second method.
    """
    here = best = _found(system, list(start))
    if here is None:
        return None
    here, fresh = here._replace(inverse=learnt), False
    size, cuts = 1.0, 0
    for _ in range(most_steps):
        if here.error <= tolerance:
            break
        if here.inverse is None:
            here, fresh = here._replace(inverse=_learnt(system, here)), True
            if here.inverse is None:
                break
        move = [-dot(row, here.left.level) for row in here.inverse]
        there = _found(system, _stepped(system, here.unknowns, move, size))
        if there is not None and (there.misfit < here.misfit or cuts >= _PATIENCE):
            if there.misfit < _QUICK * here.misfit:
                there = there._replace(inverse=_corrected(here, there))
            here, fresh = there, False
            size, cuts = min(1.0, 2.5 * size), 0
            best = min(best, here, key=attrgetter("error"))
        elif not fresh:
            here = here._replace(inverse=None)
        else:
            cuts += 1
            size = 1.0 if cuts == _PATIENCE else 0.4 * size
    return min(best, here, key=attrgetter("error"))


def settled(
    system: System[Known],
    start: Sequence[float],
    damping: float,
    *,
    tolerance: float = 1e-4,
    most_steps: int = 80,
) -> Found[Known] | None:
    """Return where the unknowns go if every part has a store that fills and empties in time.

    The steps are those of an implicit rule, and lengthen as the misfit falls; none is cut or
    refused. A rest has to fall as its own unknown rises.

    Parameters
    ----------
    system, start, tolerance, most_steps
        As in `newton`.
    damping
        The store that the system's scale fills by one reach in a step, positive.

    References
    ----------
    C. T. Kelley and D. E. Keyes, SIAM J. Numer. Anal. 35 (1998), pages 508-523.
    """
    here = _found(system, list(start))
    for _ in range(most_steps):
        if here is None or here.error <= tolerance:
            break
        matrix = tried(system.slopes, here.unknowns, here.left)
        if matrix is None:
            break
        store = damping * min(here.misfit, 1.0)
        for k, (scale, reach) in enumerate(zip(system.scale, system.reach, strict=True)):
            matrix[k][k] -= store * scale / reach
        move = tried(solve, matrix, [-rest for rest in here.left.level])
        if move is None:
            break
        here = _found(system, _stepped(system, here.unknowns, move, 1.0)) or here
    return here


def tried(function: Callable[..., Result], *arguments: Any) -> Result | None:
    """Return a function's result, or None where a wild step has left what it can compute."""
    try:
        return function(*arguments)
    except (ArithmeticError, ValueError):
        return None


def _found(system: System[Known], unknowns: Row) -> Found[Known] | None:
    """Return what is left over at some unknowns, or None if that is not a number."""
    left = tried(system.left, unknowns)
    if left is None:
        return None
    misfit = sqrt(sum((rest / by) ** 2 for rest, by in zip(left.level, system.scale, strict=True)))
    error = max(abs(rest) / by for rest, by in zip(left.level, left.measure, strict=True))
    return Found(unknowns, left, error, misfit, None) if isfinite(misfit) else None


def _learnt(system: System[Known], here: Found[Known]) -> Matrix | None:
    """Return the inverse of the slopes."""
    matrix = tried(system.slopes, here.unknowns, here.left)
    if matrix is None:
        return None
    for k, scale in enumerate(system.scale):
        matrix[k][k] -= _RIDGE * abs(matrix[k][k]) + 1e-300 * scale
    return tried(inverse, matrix)


def _corrected(here: Found[Known], there: Found[Known]) -> Matrix | None:
    """Return the inverse with what the step from here to there has shown."""
    change = [new - old for new, old in zip(there.left.level, here.left.level, strict=True)]
    weighted = [one / by**2 for one, by in zip(change, there.left.measure, strict=True)]
    size = 1.0 / dot(change, weighted)
    moved = (new - old for new, old in zip(there.unknowns, here.unknowns, strict=True))
    rows = []
    for row, step in zip(here.inverse or [], moved, strict=True):
        factor = (step - dot(row, change)) * size
        rows.append([each + factor * one for each, one in zip(row, weighted, strict=True)])
    return rows


def _stepped(system: System[Known], unknowns: Row, move: Row, size: float) -> Row:
    """Return where a step of the given size leads."""
    over = max(abs(step) / reach for step, reach in zip(move, system.reach, strict=True))
    part = size / max(1.0, over)
    return [max(x + part * step, _LEAST * x) for x, step in zip(unknowns, move, strict=True)]

"""Where a handful of balances are nought together.

Newton's method learns the slopes of all balances to all unknowns, which costs as many balances
as there are unknowns, and steps to where straight lines would meet. Near an answer the slopes
hardly change: there Broyden's rule corrects them by what each step has shown.
"""

from collections.abc import Callable, Sequence
from math import hypot, isfinite
from operator import attrgetter, sub, truediv
from typing import Any, Generic, NamedTuple, Protocol, TypeVar

from fuelcircuits.physics.numerics.linear import dot, inverse

__all__ = ["GOOD", "Found", "Left", "System", "found_at", "newton", "stepped", "tried"]

Row = list[float]
Matrix = list[list[float]]
Result = TypeVar("Result")

GOOD = 1e-9
"""Rest over its measure that an answer may have [1]."""
_AIM = 0.1  # [1], rest with which a search is done, of that which its answer may have
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
    """Where a search stands, or has ended."""

    unknowns: Row
    left: Known
    rest: Row  # what is left over, less what was to be
    error: float  # [1], largest rest over its measure
    misfit: float  # [1], root of the sum of squares of the rests over their scale
    inverse: Matrix | None = None  # of the slopes, if they are known
    move: Row | None = None  # Newton's step from here, if that is known


def newton(
    system: System[Known],
    start: Sequence[float],
    *,
    learnt: Matrix | None = None,
    held: Row | None = None,
    most_steps: int = 40,
    good: float = GOOD,
) -> Found[Known] | None:
    r"""Return where Newton's method leads.

    With r the rests and H the inverse of their slopes,

    .. math:: \Delta x = -H r, \qquad x \leftarrow x + t\,\Delta x

    A step is cut to the system's reach in every unknown, and t is cut while the misfit does not
    fall; after a few cuts the unknowns are moved all the same, which takes them across a corner
    of the equations. Where a step has made the misfit fall fast, H is corrected by

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
    held
        What is to be left over of each balance; nought if not given.
    most_steps
        Steps after which the search ends.
    good
        Error that an answer may have.

    Returns
    -------
    Found
        The best that was found: an answer if its error is at most `good`. None if the balances
        have no value at the start.

    References
    ----------
    Newton's method with backtracking; C. G. Broyden, Mathematics of Computation 19 (1965),
    pages 577-593, for his second method.
    """
    here = best = found_at(system, list(start), held)
    if here is None:
        return None
    here, fresh = here._replace(inverse=learnt), False
    size, cuts = 1.0, 0
    for _ in range(most_steps):
        if here.error <= _AIM * good:
            break
        if here.inverse is None:
            here, fresh = here._replace(inverse=_learnt(system, here)), True
            if here.inverse is None:
                break
        move = here.move or [-dot(row, here.rest) for row in here.inverse]
        there = found_at(system, stepped(system, here.unknowns, move, size), held)
        if there is not None and (there.misfit < here.misfit or cuts >= _PATIENCE):
            if there.misfit < _QUICK * here.misfit:
                there = _corrected(here, move, there)
            here, fresh = there, False
            size, cuts = min(1.0, 2.5 * size), 0
            best = min(best, here, key=attrgetter("error"))
        elif not fresh:
            here = here._replace(inverse=None, move=None)
        else:
            cuts += 1
            size = 1.0 if cuts == _PATIENCE else 0.4 * size
    return min(best, here, key=attrgetter("error"))


def tried(function: Callable[..., Result], *arguments: Any) -> Result | None:
    """Return a function's result, or None where a wild step has left what it can compute."""
    try:
        return function(*arguments)
    except (ArithmeticError, ValueError):
        return None


def found_at(system: System[Known], unknowns: Row, held: Row | None = None) -> Found[Known] | None:
    """Return what is left over at some unknowns, or None if that is not a number.

    Parameters
    ----------
    system, unknowns
        The balances, and where they are asked for.
    held
        As in `newton`; the more is to be left over, the less a rest counts.
    """
    left = tried(system.left, unknowns)
    if left is None:
        return None
    rest, measure = left.level, left.measure
    if held is not None:
        rest = [one - kept for one, kept in zip(rest, held, strict=True)]
        measure = [by + abs(kept) for by, kept in zip(measure, held, strict=True)]
    misfit = hypot(*map(truediv, rest, system.scale))
    error = max(map(abs, map(truediv, rest, measure)))
    return Found(unknowns, left, rest, error, misfit) if isfinite(misfit) else None


def stepped(system: System[Known], unknowns: Row, move: Row, size: float) -> Row:
    """Return where a step of the given size leads, cut to the system's reach."""
    over = max(abs(step) / reach for step, reach in zip(move, system.reach, strict=True))
    part = size / max(1.0, over)
    return [max(x + part * step, _LEAST * x) for x, step in zip(unknowns, move, strict=True)]


def _learnt(system: System[Known], here: Found[Known]) -> Matrix | None:
    """Return the inverse of the slopes."""
    matrix = tried(system.slopes, here.unknowns, here.left)
    if matrix is None:
        return None
    for k, scale in enumerate(system.scale):
        matrix[k][k] -= _RIDGE * abs(matrix[k][k]) + 1e-300 * scale
    return tried(inverse, matrix)


def _corrected(here: Found[Known], move: Row, there: Found[Known]) -> Found[Known]:
    """Return the place with the inverse corrected by what the step to it has shown.

    The inverse times the new rests gives both the correction and the next step.
    """
    change = list(map(sub, there.rest, here.rest))
    weighted = [one / (by * by) for one, by in zip(change, there.left.measure, strict=True)]
    size = 1.0 / dot(change, weighted)
    ahead, rows, onward = size * dot(there.rest, weighted), list[Row](), Row()
    for row, old, new, step in zip(
        here.inverse or [], here.unknowns, there.unknowns, move, strict=True
    ):
        back = dot(row, there.rest)
        off = new - old - step - back
        factor = size * off
        rows.append([each + factor * one for each, one in zip(row, weighted, strict=True)])
        onward.append(-back - ahead * off)
    return there._replace(inverse=rows, move=onward)

"""Where a handful of balances are nought together.

Newton's method learns the slopes of all balances to all unknowns, which costs as many balances
as there are unknowns, and steps to where straight lines would meet. Near an answer the slopes
hardly change: there Broyden's rule corrects them by what each step has shown.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from math import isfinite, sqrt
from operator import attrgetter
from typing import Any, Generic, Protocol, TypeVar

from fuelcircuits.physics.numerics.linear import inverse
from fuelcircuits.physics.numerics.secants import Secants

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


@dataclass(slots=True)
class Found(Generic[Known]):
    """Where a search stands, or has ended."""

    unknowns: Row
    left: Known
    rest: Row  # what is left over, less what was to be
    measure: Row  # what that is measured by
    error: float  # [1], largest rest over its measure
    misfit: float  # [1], root of the sum of squares of the rests over their scale
    inverse: Matrix | None = None  # of the slopes, if they are known


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
    of the equations. Where a step has made the misfit fall fast, H is corrected as
    `fuelcircuits.physics.numerics.secants` says; else the slopes are learnt anew.

    What the rests are measured by is asked for at the start, where slopes are learnt, and where
    the search ends; in between it is taken to stay.

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
    here = found_at(system, list(start), held)
    if here is None:
        return None
    known, fresh = None if learnt is None else Secants(learnt), False
    best, size, cuts = here, 1.0, 0
    for _ in range(most_steps):
        if here.error <= _AIM * good:
            here = _measured(here, held)
            if here.error <= _AIM * good:
                break
        if known is None:
            matrix, fresh = _learnt(system, here), True
            if matrix is None:
                break
            here, known = _measured(here, held), Secants(matrix)
        move = known.step(here.unknowns, here.rest, here.measure)
        there = found_at(system, stepped(system, here.unknowns, move, size), held, here.measure)
        if there is not None and (there.misfit < here.misfit or cuts >= _PATIENCE):
            if there.misfit < _QUICK * here.misfit:
                known.show(here.unknowns, here.rest, move)
            else:
                known = None
            here, fresh = there, False
            size, cuts = min(1.0, 2.5 * size), 0
            best = min(best, here, key=attrgetter("error"))
        elif not fresh:
            known = None
        else:
            cuts += 1
            size = 1.0 if cuts == _PATIENCE else 0.4 * size
    found = _measured(min(best, here, key=attrgetter("error")), held)
    found.inverse = known.inverse if known else None
    return found


def tried(function: Callable[..., Result], *arguments: Any) -> Result | None:
    """Return a function's result, or None where a wild step has left what it can compute."""
    try:
        return function(*arguments)
    except (ArithmeticError, ValueError):
        return None


def found_at(
    system: System[Known], unknowns: Row, held: Row | None = None, measure: Row | None = None
) -> Found[Known] | None:
    """Return what is left over at some unknowns, or None if that is not a number.

    Parameters
    ----------
    system, unknowns
        The balances, and where they are asked for.
    held
        As in `newton`; the more is to be left over, the less a rest counts.
    measure
        What rests are measured by, if that is taken to be as it was nearby.
    """
    left = tried(system.left, unknowns)
    if left is None:
        return None
    rest, squares = left.level, 0.0
    if held is not None:
        rest = [one - kept for one, kept in zip(rest, held, strict=True)]
    for i, scale in enumerate(system.scale):
        share = rest[i] / scale
        squares += share * share
    if not isfinite(squares):
        return None
    by = measure or _measure(left, held)
    return Found(unknowns, left, rest, by, _largest(rest, by), sqrt(squares))


def _measure(left: Left, held: Row | None) -> Row:
    """Return what rests are measured by, of which some is to be left over."""
    if held is None:
        return left.measure
    return [by + abs(kept) for by, kept in zip(left.measure, held, strict=True)]


def _measured(here: Found[Known], held: Row | None) -> Found[Known]:
    """Return a place whose rests are measured by what passes there."""
    by = _measure(here.left, held)
    return replace(here, measure=by, error=_largest(here.rest, by))


def stepped(system: System[Known], unknowns: Row, move: Row, size: float) -> Row:
    """Return where a step of the given size leads, cut to the system's reach."""
    part, places = size / max(1.0, _largest(move, system.reach)), range(len(move))
    there = [unknowns[i] + part * move[i] for i in places]
    least = [_LEAST * x for x in unknowns]
    return [least[i] if there[i] < least[i] else there[i] for i in places]


def _largest(row: Row, units: Row) -> float:
    """Return the largest of some numbers, whatever its sign, each in its own positive unit."""
    largest = 0.0
    for i, unit in enumerate(units):
        size = row[i] / unit
        if size > largest or -size > largest:
            largest = abs(size)
    return largest


def _learnt(system: System[Known], here: Found[Known]) -> Matrix | None:
    """Return the inverse of the slopes."""
    matrix = tried(system.slopes, here.unknowns, here.left)
    if matrix is None:
        return None
    for k, scale in enumerate(system.scale):
        matrix[k][k] -= _RIDGE * abs(matrix[k][k]) + 1e-300 * scale
    return tried(inverse, matrix)

"""How the network's unknowns are found: a first guess, Newton's method, and what follows it.

Few points are solved each from its own guess. Of many, a coarse row is, and the points between
start from straight lines between answers. A point left over starts from the solved points on
both sides of it, then from its own guess with steps that are damped more and more.
"""

from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.errors import ConvergenceError
from fuelcircuits.physics.network.balance import freed, names, residuals
from fuelcircuits.physics.network.guess import first_guess, still_guess
from fuelcircuits.physics.network.neighbours import between_solved, coarse_to_fine
from fuelcircuits.physics.network.problem import Points, Problem
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.network.state import State, state_of
from fuelcircuits.physics.numerics.newton import Found, newton

__all__ = ["solved"]

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]

_SHIFT = {"angle": 1e-7, "speed": 1e-4}
_REACH = {"manifold pressure": 2e4, "angle": 0.15, "speed": 40.0}
_SCALE = {
    "horn pressure": 1e-2,
    "pressure below the choke": 1e-2,
    "manifold pressure": 1e-2,
    "venturi pressure": 5e-3,
    "tube pressure": 3e-5,
}
_LADDER = (
    ("guess", 0.0, 0),
    ("still", 0.0, 0),
    ("guess", 3.0, 40),
    ("still", 3.0, 40),
    ("guess", 30.0, 80),
    ("still", 30.0, 80),
    ("guess", 300.0, 200),
)
_FREE = ("angle", "speed")
_CLOSING = {"air flow": 1e-2, "manifold pressure": 1e4, "torque": 1e2}
_MANY = 48  # points from which a coarse row comes first
_GOOD = 1e-9  # [1], imbalance over traffic that an answer may have


class _Case(NamedTuple):
    """What is solved, and how far a solver may go in it."""

    problem: Problem
    points: Points
    choke_angle: Floats
    wanted: str
    unknown: list[str]
    shift: Floats
    reach: Floats
    scale: Floats

    def newton(self, start: Floats, index: Indices, **how: Any) -> Found:
        """Return where Newton's method leads from `start` at some of the points."""
        last, chosen = index[:0], self.points

        def residual(unknowns: Floats, some: Indices) -> tuple[Floats, Floats]:
            nonlocal last, chosen
            if some is not last:
                last, chosen = some, self.points.take(index[some])
            return residuals(self.problem, self.wanted, unknowns, chosen)

        return newton(residual, start, self.shift, self.reach, self.scale, **how)

    def guess(self, index: Indices) -> Floats:
        """Return a first guess at some of the points."""
        return first_guess(self.problem, self.points.take(index), self.choke_angle[index])


def solved(
    problem: Problem,
    points: Points,
    shape: tuple[int, ...],
    settings: Settings,
    *,
    wanted: str = "",
    start: Floats | None = None,
) -> State:
    """Return the state of a posed problem.

    Parameters
    ----------
    problem, points, shape
        As `fuelcircuits.physics.network.posing.pose` gives them.
    settings
        As in `fuelcircuits.physics.network.solving.solve`.
    wanted
        What `points.target` is, where something is free; see `balance.closure`.
    start
        Unknowns to start from, shape (unknowns, points).

    Raises
    ------
    ConvergenceError
        If a point has no balance; the message names the quantity.
    """
    unknown, closing = names(problem), _CLOSING.get(wanted, 1.0)
    case = _Case(
        problem,
        points,
        np.broadcast_to(settings.choke_angle, shape).reshape(-1),
        wanted,
        unknown,
        shift=np.array([_SHIFT.get(name, 1e-6) for name in unknown]),
        reach=np.array([_REACH.get(name, 5e3) for name in unknown]),
        scale=np.array([_SCALE.get(name, closing if name in _FREE else 2e-4) for name in unknown]),
    )
    found = _searched(case, start)
    _check(found, unknown, points)
    state = state_of(problem, found.unknowns, freed(problem, found.unknowns, points), shape)
    single = points.speed.size == 1 and not problem.free
    return state._replace(slopes=case.scale[:, None] * found.slope[0]) if single else state


def _searched(case: _Case, start: Floats | None) -> Found:
    """Return Newton's answer; where it has none, that of better starts and slower steps."""
    count = case.points.speed.size
    every = np.arange(count)
    if start is not None:
        found = case.newton(start, every, most_steps=25)
    elif count < _MANY:
        found = case.newton(case.guess(every), every, most_steps=25)
    else:
        found = _refined(case, count)
    _from_neighbours(case, found, every, most_steps=25)
    _damped(case, found)
    return found


def _refined(case: _Case, count: int) -> Found:
    """Return the answers of a coarse row of points, then of those between them."""
    found = Found(
        np.full((len(case.unknown), count), np.nan),
        np.full(count, np.inf),
        np.zeros(count, dtype=np.intp),
        0,
        np.empty((0, len(case.unknown), len(case.unknown))),
    )
    first, *rest = coarse_to_fine(count)
    _keep(found, first, case.newton(case.guess(first), first, most_steps=10))
    for group in rest:
        _from_neighbours(case, found, group, most_steps=6)
    return found


def _keep(found: Found, index: Indices, fresh: Found) -> None:
    """Put the answers at some points among all the others."""
    for old, new in zip(found[:3], fresh[:3], strict=True):
        old[..., index] = new


def _from_neighbours(case: _Case, found: Found, group: Indices, most_steps: int) -> None:
    """Solve those of some points that have no answer yet from the solved ones on both sides."""
    good = found.error <= _GOOD
    left = group[~good[group]]
    if left.size and good.any():
        start = between_solved(found.unknowns, good, left)
        _keep(found, left, case.newton(start, left, most_steps=most_steps))


def _damped(case: _Case, found: Found) -> None:
    """Solve what is left from its own guess, damped more and more."""
    for start, damping, steps in _LADDER:
        left = np.flatnonzero(~(found.error <= _GOOD))
        if not left.size:
            break
        again = case.guess(left)
        if start == "still":
            again = still_guess(again, case.unknown)
        if damping > 0.0:
            slow = case.newton(again, left, damping=damping, most_steps=steps, tolerance=1e-4)
            again = slow.unknowns
        _keep(found, left, case.newton(again, left, most_steps=40))


def _check(found: Found, unknown: list[str], points: Points) -> None:
    """Raise unless every point balances."""
    bad = np.flatnonzero(~(found.error <= _GOOD))
    if bad.size:
        first = bad[0]
        raise ConvergenceError(
            f"{unknown[found.worst[first]]} must balance, got {found.error[first]:.1e} of its "
            f"traffic left over at {points.speed[first]:.4g} rad/s and "
            f"{points.angle[first]:.4g} rad ({bad.size} of {found.error.size} points)"
        )

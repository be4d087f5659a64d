"""One state of the network from a state nearby: Broyden's method in plain floats.

A slider that moves asks for one state after another, each close to the last. The slopes of the
last are nearly those of the next, so a handful of balances will do, and no new slopes.
"""

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.physics.network.balance import unstacked
from fuelcircuits.physics.network.plain_balance import PlainBalance, plain_balance
from fuelcircuits.physics.network.plain_flows import Plain, plain
from fuelcircuits.physics.network.problem import Points, Problem
from fuelcircuits.physics.network.state import State, state_of

__all__ = ["nearby"]

Floats = NDArray[np.float64]

_TOLERANCE = 1e-9  # [1], imbalance over traffic of a finished state
_TRIES = 20
_REACH = 5e3  # Pa, the longest step
_WORSE = 10.0  # growth of the error which tells that the state was not so near
_SHIFT = 1e-4  # Pa, by which slopes are learnt


def nearby(problem: Problem, points: Points, shape: tuple[int, ...], start: State) -> State | None:
    r"""Return the state at one point, or None if it does not follow from the one nearby.

    With r the imbalances over their first measure and H the inverse of their slopes,

    .. math:: s = -H r, \qquad H \leftarrow H + \frac{(s - H y)\, y^T}{y^T y},

    y being what the step s has changed of r.

    Parameters
    ----------
    problem, points, shape
        As `fuelcircuits.physics.network.posing.pose` gives them; one point, barrels alike.
    start
        The state nearby. Its slopes are used if it has them.

    References
    ----------
    C. G. Broyden, Mathematics of Computation 19 (1965), pages 577-593: his second method.
    """
    of, place = plain(problem, points), start.unknowns[:, 0]
    left = plain_balance(of, problem.alike, place.tolist())
    slopes = _slopes(of, problem.alike, place, left) if start.slopes is None else start.slopes
    weight, most = np.array(left.measure), _WORSE * left.error
    rest, inverse = left.imbalance / weight, np.linalg.inv(slopes / weight[:, None])
    for _ in range(_TRIES):
        if left.error <= _TOLERANCE:
            slopes = weight[:, None] * np.linalg.inv(inverse)
            return _state(problem, points, shape, place, left)._replace(slopes=slopes)
        step = -inverse @ rest
        if not (np.abs(step).max() < _REACH and left.error < most):
            return None
        place = place + step
        left = plain_balance(of, problem.alike, place.tolist())
        change = left.imbalance / weight - rest
        rest = rest + change
        inverse += np.outer(step - inverse @ change, change / (change @ change))
    return None


def _slopes(of: Plain, alike: float, place: Floats, left: PlainBalance) -> Floats:
    """Return how each imbalance answers to each pressure [kg/(s Pa)]."""
    shifted = place + _SHIFT * np.eye(place.size)
    rows = [plain_balance(of, alike, each.tolist()).imbalance for each in shifted]
    return np.asarray(np.subtract(rows, left.imbalance).T / _SHIFT)


def _state(
    problem: Problem, points: Points, shape: tuple[int, ...], place: Floats, left: PlainBalance
) -> State:
    """Return the finished state."""
    rows = np.reshape(left.flows, (-1, 1, 1))
    found = unstacked(rows, 1, np.full((1, 1, 1), left.power_share))
    return state_of(problem, place[:, None], points, shape, found=found)

"""Where the search for a state starts, made of states that have been solved."""

from collections.abc import Iterable, Sequence
from math import prod

from fuelcircuits.physics.network.state import State
from fuelcircuits.physics.numerics.linear import dot

__all__ = ["afresh", "moved", "through"]

_OFF = 1.0 + 1e-6  # [1], far enough for slopes to be learnt, and near enough for them to serve
_LEAST = 0.5  # [1], of a pressure that a start leaves at least


def afresh(state: State) -> State:
    """Return a start beside a state, without its slopes: a search from there learns them anew.

    Those that a search has ended with are from along its way. A state from which many others are
    started saves each of them some steps if its slopes are its own.
    """
    return state._replace(unknowns=[_OFF * each for each in state.unknowns], inverse=None)


def moved(state: State, before: State, after: State) -> State:
    """Return a start from a state, its pressures and speed moved as from one state to another.

    The slopes are those of the state that has been found last, of the same equations.
    """
    rows = zip(state.unknowns, before.unknowns, after.unknowns, strict=True)
    return after._replace(
        speed=state.speed + after.speed - before.speed,
        unknowns=[max(x + b - a, _LEAST * x) for x, a, b in rows],
    )


def through(states: Sequence[State], places: Sequence[float], place: float) -> State:
    """Return a start at a place, on the curve through the pressures and speeds of some states.

    Parameters
    ----------
    states, places
        The nearest first, and where they are; no two at one place.
    place
        Where the start is to be.

    References
    ----------
    Lagrange's rule: G. Dahlquist and Å. Björck, Numerical Methods (1974), section 4.2.
    """
    weights = [_weight(place, own, places) for own in places]
    rows = zip(*(state.unknowns for state in states), strict=True)
    return states[0]._replace(
        speed=_between(weights, [state.speed for state in states]),
        unknowns=[_between(weights, row) for row in rows],
    )


def _weight(place: float, own: float, places: Iterable[float]) -> float:
    """Return the weight of a state in the sum."""
    return prod((place - one) / (own - one) for one in places if one != own)


def _between(weights: Sequence[float], row: Sequence[float]) -> float:
    """Return a number of a start from the same number of every state."""
    return max(dot(weights, row), _LEAST * row[0])

"""Rows of states: each is found from those before it, or from another rig's at its place."""

from collections.abc import Sequence

from fuelcircuits.errors import ConvergenceError, between, positive
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.balance import Balance
from fuelcircuits.physics.network.posing import place, pose
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.search import balanced
from fuelcircuits.physics.network.settings import WARM, Settings
from fuelcircuits.physics.network.state import State
from fuelcircuits.physics.numerics.interpolation import linspace
from fuelcircuits.physics.numerics.newton import GOOD
from fuelcircuits.physics.openings.plate import OPEN

__all__ = ["DRAWN", "along", "path", "stand"]

DRAWN = 1e-6
"""Share of its traffic that a balance may have left over where it is only drawn [1]."""


def stand(rig: Rig, stop: float, count: int) -> list[tuple[float, float]]:
    r"""Return the places that a flow stand runs through, from a throttle stop to wide open.

    The speed rises evenly from idle to 0.85 of the highest, the throttle with its square,

    .. math:: \omega = \omega_i + (0.85\,\omega_{max} - \omega_i)\, s, \qquad
              \theta = \theta_i + \left(\tfrac\pi2 - \theta_i\right) s^2

    so that the first half is light running on the road and the last few steps full load.

    Parameters
    ----------
    rig
        The engine, with its idle and highest speed.
    stop
        Throttle angle of the first place [rad], 0 to pi/2.
    count
        Number of places, 2 or more.

    Returns
    -------
    Speed [rad/s] and throttle angle [rad] of each.

    Notes
    -----
    The path is this package's own choice, of the kind that a flow stand runs.
    """
    between("count", count, 2, 100_000)
    slow, fast = rig.engine.idle_speed, 0.85 * rig.engine.highest_speed
    return [
        (slow + stage * (fast - slow), min(stop + (OPEN - stop) * stage**2, OPEN))
        for stage in linspace(0.0, 1.0, count)
    ]


def path(
    rig: Rig,
    weather: Weather,
    fuel: Fuel,
    places: Sequence[tuple[float, float]],
    *,
    settings: Settings = WARM,
    other: Rig | None = None,
    start: State | None = None,
    good: float = GOOD,
) -> list[State]:
    """Return the states at one place after another, each from those before it.

    Parameters
    ----------
    rig, weather, fuel, settings, other
        As in `fuelcircuits.physics.network.solving.solve`.
    places
        Speed [rad/s] and throttle angle [rad] of each, neighbours alike.
    start
        A state near the first.
    good
        Share of its traffic that a balance may have left over [1], `GOOD` or more.

    Raises
    ------
    RangeError, ConvergenceError
        As `solve`.
    """
    of, states = pose(rig, weather, fuel, settings, other), list[State]()
    for speed, angle in places:
        positive("speed", speed, "rad/s")
        between("throttle angle", angle, 0.0, OPEN, "rad")
        if len(states) > 1:
            start = _onward(states[-2], states[-1])
        elif states:
            start = states[-1]
        states.append(balanced(Balance(of, place(of, speed, angle)), start, good))
    return states


def along(
    rig: Rig,
    weather: Weather,
    fuel: Fuel,
    home: Sequence[State],
    *,
    settings: Settings = WARM,
    other: Rig | None = None,
    good: float = GOOD,
) -> list[State | None]:
    """Return the states of a changed rig at the places of another's.

    Each is started from the other's, moved by what the change has moved that before it.

    Parameters
    ----------
    rig, weather, fuel, settings, other
        As in `fuelcircuits.physics.network.solving.solve`.
    home
        States of the rig as it was.
    good
        As in `path`.

    Returns
    -------
    States, None where there is no balance.
    """
    of, states = pose(rig, weather, fuel, settings, other), list[State | None]()
    for k, base in enumerate(home):
        last = states[-1] if states else None
        start = base if last is None else _beside(home[k - 1], last, base)
        at = place(of, base.speed, base.throttle_angle)
        try:
            states.append(balanced(Balance(of, at), start, good))
        except ConvergenceError:
            states.append(None)
    return states


def _onward(before: State, last: State) -> State:
    """Return a start for the state after the last, on the straight line through the two."""
    return last._replace(unknowns=_moved(before, last, last))


def _beside(before: State, last: State, base: State) -> State:
    """Return a start from a state of the rig as it was, moved as the one before it has been.

    Where the barrels have come to differ the state found last is the nearer one.
    """
    if len(last.pressures.well) != len(base.pressures.well):
        return last
    return base._replace(unknowns=_moved(before, last, base))


def _moved(before: State, last: State, state: State) -> list[float]:
    """Return a state's pressures, moved as from one state to another, none to below its half."""
    rows = zip(before.unknowns, last.unknowns, state.unknowns, strict=False)
    return [max(x + b - a, 0.5 * x) for a, b, x in rows]

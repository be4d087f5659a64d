"""The mixture curve of a rig on the flow stand, quick enough to be played with.

The path of throttle and speed is that of a flow stand, from the card's own stop. A changed jet
or another height is then solved on that path from the card's own answer, which lies near.
"""

from functools import lru_cache

from fuelcircuits.benches.carburettor.running import DAY, air
from fuelcircuits.errors import ConvergenceError
from fuelcircuits.physics.matter.fuel import Fuel, density
from fuelcircuits.physics.network.curves import DRAWN, along, path, stand
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.solving import curb_idle, solve
from fuelcircuits.physics.network.state import State
from fuelcircuits.physics.numerics.interpolation import interpolate, linspace, nearest
from fuelcircuits.physics.openings.plate import OPEN

__all__ = [
    "at_places",
    "curve",
    "fuel_density",
    "held",
    "held_point",
    "point",
    "shares",
    "speed_at",
]

HELD = 49
"""Points of a curve at a held speed [1]."""
COUNT = 31
"""Points of the curve [1]."""
ROUGH = 3
"""Places of that from one to the next by which throttles are found for a held speed [1]."""
AFRESH = 6
"""Places of the card's own curve from one that is solved without a start to the next [1]."""
SPEEDS = 20.0
"""Distance of the held speeds at which a card's own curve is kept [rad/s]."""
GRID = 500.0
"""Distance of the heights at which a card's own curve is kept [m]."""


@lru_cache(maxsize=16)
def _stop(card: Rig) -> State:
    """Return the card's own curb idle at sea level."""
    return curb_idle(card, air(0.0), Fuel())


@lru_cache(maxsize=16)
def _places(card: Rig) -> tuple[list[float], list[float]]:
    """Return speeds [rad/s] and throttle angles [rad] of the curve."""
    speeds, angles = zip(*stand(card, _stop(card).throttle_angle, COUNT), strict=True)
    return list(speeds), list(angles)


def speed_at(card: Rig, angle: float) -> float:
    """Return the engine speed that goes with a throttle angle on the flow stand [rad/s]."""
    speeds, angles = _places(card)
    return interpolate(angle, angles, speeds)


@lru_cache(maxsize=256)
def _there(card: Rig, altitude: float, place: int) -> State:
    """Return the card's own state at a height and a place of its curve.

    At sea level it is found from the place before, every sixth afresh, so that none has to wait
    for all.
    """
    speed, angle = (row[place] for row in _places(card))
    start = None
    if altitude:
        start = _there(card, 0.0, place)
    elif place % AFRESH:
        start = _there(card, 0.0, place - 1)
    return solve(card, air(altitude), Fuel(), speed, angle, start=start)


@lru_cache(maxsize=16)
def curve(card: Rig, rig: Rig, altitude: float = 0.0, *, like: Rig | None = None) -> list[State]:
    """Return the steady states from the idle stop to wide open.

    Parameters
    ----------
    card
        The rig whose stop and path are kept.
    rig
        The rig as it has been changed.
    altitude
        Height above the sea [m].
    like
        A rig nearer than the card's, where many will be asked for that are like it.

    Raises
    ------
    ConvergenceError
        If there is no balance at one of them.
    """
    near = GRID * round(altitude / GRID)
    home = curve(card, like, near) if like else _home(card, near)
    return _whole(along(rig, air(altitude), Fuel(), home, good=DRAWN))


@lru_cache(maxsize=16)
def _home(card: Rig, altitude: float) -> list[State]:
    """Return the card's own states at a height, those above the sea from those at it."""
    sea = [_there(card, 0.0, place) for place in range(COUNT)]
    if not altitude:
        return sea
    return _whole(along(card, air(altitude), Fuel(), sea, good=DRAWN))


def _whole(states: list[State | None]) -> list[State]:
    """Return the states of a curve, each of which must have been found."""
    found = [each for each in states if each is not None]
    if len(found) < len(states):
        missing = len(states) - len(found)
        raise ConvergenceError(f"mixture curve must balance at every point, got {missing} without")
    return found


@lru_cache(maxsize=64)
def point(card: Rig, rig: Rig, altitude: float, opening: float) -> State:
    """Return the state at one place of the path.

    Parameters
    ----------
    card, rig, altitude
        As in `curve`.
    opening
        Share of the throttle's way from the idle stop to wide open [1], 0 to 1.
    """
    angle = _angle(card, opening)
    start = _there(card, GRID * round(altitude / GRID), nearest(angle, _places(card)[1]))
    return solve(rig, air(altitude), Fuel(), speed_at(card, angle), angle, start=start)


def _angle(card: Rig, opening: float) -> float:
    """Return the throttle angle of an opening [rad]."""
    stop = _stop(card).throttle_angle
    return min(stop + (OPEN - stop) * opening, OPEN)


@lru_cache(maxsize=256)
def _turning(card: Rig, speed: float, place: int) -> State:
    """Return the card's own state at a held speed and the throttle of a place of its curve."""
    near = _there(card, 0.0, place)
    return solve(card, air(0.0), Fuel(), speed, near.throttle_angle, start=near)


@lru_cache(maxsize=16)
def _home_held(card: Rig, speed: float) -> list[State]:
    """Return the card's states at a held speed, evenly spaced in manifold vacuum."""
    rough = [_turning(card, speed, place) for place in reversed(range(0, COUNT, ROUGH))]
    vacuum = [each.manifold_vacuum for each in rough]
    angles = [each.throttle_angle for each in rough]
    even = linspace(vacuum[-1], vacuum[0], HELD)
    places = [(speed, interpolate(each, vacuum, angles)) for each in even]
    return path(card, air(0.0), Fuel(), places, good=DRAWN)


@lru_cache(maxsize=16)
def held(card: Rig, rig: Rig, speed: float, altitude: float = 0.0) -> list[State]:
    """Return the states from the idle stop to wide open with the speed held [rad/s].

    `altitude` is that of `curve`.

    Raises
    ------
    ConvergenceError
        If there is no balance at one of them.
    """
    home = _home_held(card, SPEEDS * round(speed / SPEEDS))
    return at_places(rig, [each._replace(speed=speed) for each in home], altitude)


def at_places(rig: Rig, near: list[State], altitude: float = 0.0) -> list[State]:
    """Return the states of a rig at a height [m], and the speeds and throttle angles of others."""
    return _whole(along(rig, air(altitude), Fuel(), near, good=DRAWN))


@lru_cache(maxsize=64)
def held_point(card: Rig, rig: Rig, speed: float, opening: float, altitude: float = 0.0) -> State:
    """Return the state at a held speed [rad/s], and opening and height as in `point`."""
    angle = _angle(card, opening)
    start = _turning(card, SPEEDS * round(speed / SPEEDS), nearest(angle, _places(card)[1]))
    return solve(rig, air(altitude), Fuel(), speed, angle, start=start)


def fuel_density() -> float:
    """Return the density of the fuel on the flow stand [kg/m3]."""
    return density(Fuel(), DAY)


def shares(found: State) -> dict[str, float]:
    """Return the fuel that each circuit adds, all barrels together [kg/s].

    "idle" leaves by the mixture screw, "transfer" by the slot, "power" is what the metering
    rods let through beyond their lean step, and "main" is the rest of what the nozzles give.
    """
    by = found.fuel_by_circuit
    power = min(found.power_fuel, by["nozzle"])
    return {
        "idle": by["screw"],
        "transfer": by["slot"],
        "main": by["nozzle"] - power,
        "power": power,
    }

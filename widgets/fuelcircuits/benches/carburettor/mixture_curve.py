"""The mixture curve of a rig on the flow stand, quick enough to be played with.

The path of throttle and speed is the one of `network.sweep`, found once for the card. A changed
jet or another height is then solved on that path from the card's own answer, which lies near.
"""

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.benches.frame.measure import measure
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel, density
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.solving import solve, sweep
from fuelcircuits.physics.network.state import State
from fuelcircuits.physics.openings.plate import OPEN

__all__ = ["ALTITUDE", "curve", "fuel_density", "held", "held_point", "point", "shares"]

HELD = 49
"""Points of a curve at a held speed [1]."""
ALTITUDE = measure("m", ("m", 0), ("ft", 0))
COUNT = 31
"""Points of the curve [1]."""
SPEEDS = 20.0
"""Distance of the held speeds at which a card's own curve is kept [rad/s]."""
DAY = 288.15
"""Temperature of the air at every height [K], so that height changes the pressure alone."""
GRID = 500.0
"""Distance of the heights at which a card's own curve is kept [m]."""


@lru_cache(maxsize=64)
def _home(card: Rig, altitude: float = 0.0) -> State:
    """Return the card's own curve at a height."""
    air = Weather.at(altitude, temperature=DAY)
    if altitude == 0.0:
        return sweep(card, air, Fuel(), count=COUNT)
    low = _home(card)
    return solve(card, air, Fuel(), low.speed, low.throttle_angle, start=low)


def _near(altitude: float) -> float:
    """Return the height nearby at which the card's own curve is kept."""
    return GRID * round(altitude / GRID)


@lru_cache(maxsize=128)
def curve(card: Rig, rig: Rig, altitude: float = 0.0) -> State:
    """Return the steady states from the idle stop to wide open.

    Parameters
    ----------
    card
        The rig whose stop and path are kept.
    rig
        The rig as it has been changed.
    altitude
        Height above the sea [m].
    """
    home = _home(card, _near(altitude))
    air = Weather.at(altitude, temperature=DAY)
    return solve(rig, air, Fuel(), home.speed, home.throttle_angle, start=home)


@lru_cache(maxsize=512)
def point(card: Rig, rig: Rig, altitude: float, opening: float) -> State:
    """Return the state at one place of the path.

    Parameters
    ----------
    card, rig, altitude
        As in `curve`.
    opening
        Share of the throttle's way from the idle stop to wide open [1], 0 to 1.
    """
    home = _home(card, _near(altitude))
    angle, start = _place(home, opening)
    speed = float(np.interp(angle, home.throttle_angle, home.speed))
    air = Weather.at(altitude, temperature=DAY)
    return solve(rig, air, Fuel(), speed, angle, start=start)


@lru_cache(maxsize=64)
def _home_held(card: Rig, speed: float) -> State:
    """Return the card's states at a held speed, evenly spaced in manifold vacuum."""
    home, air = _home(card), Weather.at(temperature=DAY)
    rough = solve(card, air, Fuel(), speed, home.throttle_angle, start=home)
    falling = rough.manifold_vacuum[::-1], rough.throttle_angle[::-1]
    even = np.linspace(falling[0][-1], falling[0][0], HELD)
    return solve(card, air, Fuel(), speed, np.interp(even, *falling))


@lru_cache(maxsize=128)
def held(card: Rig, rig: Rig, speed: float) -> State:
    """Return the states from the idle stop to wide open with the speed held [rad/s]."""
    home = _home_held(card, SPEEDS * round(speed / SPEEDS))
    return solve(rig, Weather.at(temperature=DAY), Fuel(), speed, home.throttle_angle, start=home)


@lru_cache(maxsize=512)
def held_point(card: Rig, rig: Rig, speed: float, opening: float) -> State:
    """Return the state at a held speed [rad/s] and an opening as in `point`."""
    home = _home_held(card, SPEEDS * round(speed / SPEEDS))
    angle, start = _place(home, opening)
    return solve(rig, Weather.at(temperature=DAY), Fuel(), speed, angle, start=start)


def _place(home: State, opening: float) -> tuple[float, State]:
    """Return the throttle angle of an opening, and the answer next to it to start from."""
    stop = float(home.throttle_angle[0])
    angle = min(stop + (OPEN - stop) * opening, OPEN)
    nearest = int(np.argmin(np.abs(home.throttle_angle - angle)))
    return angle, home._replace(unknowns=home.unknowns[:, nearest : nearest + 1])


def fuel_density() -> float:
    """Return the density of the fuel on the flow stand [kg/m3]."""
    return float(density(Fuel(), DAY))


def shares(found: State) -> dict[str, NDArray[np.float64]]:
    """Return the fuel that each circuit adds, all barrels together [kg/s].

    "idle" leaves by the mixture screw, "transfer" by the slot, "power" is what the metering
    rods let through beyond their lean step, and "main" is the rest of what the nozzles give.
    """
    by = found.fuel_by_circuit
    power = np.minimum(found.power_fuel, by["nozzle"])
    return {
        "idle": by["screw"],
        "transfer": by["slot"],
        "main": by["nozzle"] - power,
        "power": power,
    }

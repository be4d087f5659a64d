"""Where an engine runs on the bench: idling, cruising, at full load; solved from there.

The card's own state at each of these is found once and kept. A rig that somebody has changed is
then solved from it, which takes a fraction of the time and gives the same answer, because what
it starts from depends on nothing but the card.
"""

from collections.abc import Mapping
from functools import lru_cache

from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.network.solving import curb_idle, solve
from fuelcircuits.physics.network.state import State
from fuelcircuits.physics.openings.plate import OPEN

__all__ = ["AIR", "DAY", "PETROL", "air", "card_state", "lambda_shown", "running"]

AIR, PETROL = Weather.at(), Fuel()
DAY = AIR.temperature
"""Temperature of the air at every height [K], so that height changes the pressure alone."""
PLACES: Mapping[str, tuple[float, float]] = {"cruise": (220.0, 0.45), "full": (320.0, OPEN)}
"""Speed [rad/s] and throttle angle [rad] of those that the card does not give (ours)."""


@lru_cache(maxsize=64)
def air(altitude: float) -> Weather:
    """Return the air at a height above the sea [m]."""
    return Weather.at(altitude, temperature=DAY)


@lru_cache(maxsize=32)
def card_state(card: Rig, way: str, altitude: float = 0.0) -> State:
    """Return the state of the rig on its card, warm, at "idle", in "cruise" or at "full" load.

    Its idle stop was set at sea level, and at a height [m] the engine turns as fast as there.
    """
    if altitude:
        sea = card_state(card, way)
        return solve(card, air(altitude), PETROL, sea.speed, sea.throttle_angle, start=sea)
    if way == "idle":
        return curb_idle(card, AIR, PETROL)
    return solve(card, AIR, PETROL, *PLACES[way])


def running(
    card: Rig,
    rig: Rig,
    way: str,
    settings: Settings,
    *,
    altitude: float = 0.0,
    start: State | None = None,
) -> State:
    """Return the state of a changed rig at the card's speed and throttle angle.

    Parameters
    ----------
    card
        The rig that gives both, and a state to start from.
    rig
        The rig as it is now.
    way
        As in `card_state`.
    settings
        What is not on the card.
    altitude
        Height above the sea [m].
    start
        A state nearer than the card's.

    Raises
    ------
    ConvergenceError
        If there is no balance.
    """
    home = card_state(card, way, altitude)
    near, weather = home if start is None else start, air(altitude)
    return solve(
        rig, weather, PETROL, home.speed, home.throttle_angle, settings=settings, start=near
    )


def lambda_shown(state: State) -> float:
    """Return lambda as a meter shows it: where hardly any fuel flows it stops at 9.999."""
    return min(state.mixture, 9.999)

"""Where an engine runs on the bench: idling, cruising, at full load; solved from there.

The card's own state at each of these is found once and kept. A rig that somebody has changed is
then solved from it, which takes a fraction of the time and gives the same answer, because what
it starts from depends on nothing but the card.
"""

from collections.abc import Mapping
from functools import lru_cache
from typing import Any

import numpy as np

from fuelcircuits.errors import ConvergenceError
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.network.solving import curb_idle, solve
from fuelcircuits.physics.network.state import State
from fuelcircuits.physics.openings.plate import OPEN

__all__ = ["AIR", "PETROL", "RUNNING", "card_state", "lambda_shown", "running"]

AIR, PETROL = Weather.at(), Fuel()
RUNNING: Mapping[str, str] = {"idle": "at idle", "cruise": "cruising", "full": "at full load"}
"""Words for the ways of running, as a choice shows them."""
PLACES: Mapping[str, tuple[float, float]] = {"cruise": (220.0, 0.45), "full": (320.0, OPEN)}
"""Speed [rad/s] and throttle angle [rad] of those that the card does not give (ours)."""


@lru_cache(maxsize=32)
def card_state(card: Rig, way: str) -> State:
    """Return the state of the rig on its card, warm, running in this `way`."""
    if way == "idle":
        stop = curb_idle(card, AIR, PETROL)
        return solve(card, AIR, PETROL, stop.speed, stop.throttle_angle)
    return solve(card, AIR, PETROL, *PLACES[way])


def running(card: Rig, rig: Rig, way: str, settings: Settings, **changed: Any) -> State:
    """Return the state of a changed rig at the card's speed and throttle angle.

    Parameters
    ----------
    card
        The rig whose states are started from.
    rig
        The rig as it is now.
    way
        A key of `RUNNING`.
    settings
        What is not on the card; fields may be arrays.
    changed
        `speed`, `throttle_angle` or `weather` where they are not the card's.

    Raises
    ------
    ConvergenceError
        If there is no balance, from the card's state or from a fresh guess.
    """
    home = card_state(card, way)
    weather = changed.get("weather", AIR)
    speed = changed.get("speed", home.speed)
    angle = changed.get("throttle_angle", home.throttle_angle)
    fields = (speed, angle, settings.bowl_pressure, settings.vapour, weather.pressure)
    shape = np.broadcast_shapes(*(np.shape(each) for each in fields if each is not None))
    count = int(np.prod(shape))
    start = home._replace(unknowns=np.repeat(home.unknowns, count, axis=1))
    try:
        return solve(rig, weather, PETROL, speed, angle, settings=settings, start=start)
    except ConvergenceError:
        return solve(rig, weather, PETROL, speed, angle, settings=settings)


def lambda_shown(state: State) -> float:
    """Return lambda as a meter shows it: where hardly any fuel flows it stops at 9.999."""
    return min(float(state.mixture), 9.999)

"""A warm engine at idle as somebody has set it, and the card that it should answer to."""

from dataclasses import dataclass, replace
from functools import lru_cache
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.benches.choke.table import idle_stop
from fuelcircuits.physics.circuits.bowl_vents import outside_lift
from fuelcircuits.physics.circuits.float_bowl import steady
from fuelcircuits.physics.matter.analyser import reading
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel, composition
from fuelcircuits.physics.network import state as physics
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.network.solving import solve_for_speed

__all__ = ["TURN", "TURNS", "Adjusted", "Idle", "card_settings", "idle"]

TURN = np.radians(0.6)
"""Throttle angle for one turn of the idle speed screw or the fast-idle screw [rad]."""
TURNS = np.linspace(-0.5, 5.0, 12)
"""Turns of the idle speed screw at which the curve is solved [1]."""
SPREAD = 0.06
"""Spread of the mixture from cylinder to cylinder [1]; see `analyser.reading`."""
STALLED = 0.55
"""Speed over the card's idle speed below which the engine stops [1] (common practice)."""


@dataclass(frozen=True)
class Adjusted:
    """What can be set, in SI; screws in turns from where the card has them."""

    float_setting: float
    vent_setting: float
    idle_screw: float
    mixture_screw: float  # turns off its seat
    fast_screw: float


class Idle(NamedTuple):
    """The warm engine; the curve runs over `TURNS`, with the stop and the fast idle after it."""

    level: float  # m above the card's
    below: float  # m under the gasket face
    lift: float  # m of the outside vent at idle
    throttle: NDArray[np.float64]  # rad
    speed: NDArray[np.float64]  # rad/s, nought where it stalls
    co: NDArray[np.float64]  # share of the dry exhaust
    state: physics.State


def card_settings(rig: Rig) -> Adjusted:
    """Return the settings of the card."""
    low, bowl, vents = rig.low_speed, rig.float_bowl, rig.vents
    return Adjusted(
        bowl.float_setting, vents.outside_setting, 0.0, float(low.screw_turns), fast_screw=0.0
    )


@lru_cache(maxsize=256)
def idle(card: Rig, setting: Adjusted) -> Idle:
    """Return how the warm engine idles with these settings."""
    bowl = replace(card.float_bowl, float_setting=setting.float_setting)
    low = replace(
        card.low_speed, screw_turns=setting.mixture_screw, fewest_turns=0.0, most_turns=12.0
    )
    vents = replace(card.vents, outside_setting=setting.vent_setting)
    rig = replace(card, float_bowl=bowl, low_speed=low, vents=vents)
    held = steady(bowl, Fuel(), 0.4e-3)
    level = float(held.level) - (bowl.depth - bowl.specified_level)
    throttle = idle_stop(card) + TURN * np.append(TURNS, setting.idle_screw)
    fast = throttle[-1] + card.choke.cam_openings[1] + TURN * setting.fast_screw
    throttle = np.append(throttle, fast)
    now = Settings(bowl_level=float(np.clip(level, -40e-3, 20e-3)))
    own = card_settings(card)
    home = None if setting == own else idle(card, own).state
    found = solve_for_speed(rig, Weather.at(), Fuel(), throttle, settings=now, start=home)
    runs = found.speed > STALLED * card.engine.idle_speed
    gas = reading(
        np.clip(found.mixture, 0.5, 5.0),
        float(composition(Fuel()).hydrogen_per_carbon),
        spread=SPREAD,
    )
    return Idle(
        level=level,
        below=bowl.depth - float(held.level),
        lift=float(outside_lift(vents, throttle[-2])),
        throttle=throttle,
        speed=np.where(runs, found.speed, 0.0),
        co=np.where(runs, gas.co, 0.0),
        state=found,
    )

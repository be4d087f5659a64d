"""A warm-up: a cold engine at a held speed, with the choke opening as its coil is heated."""

from functools import lru_cache
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.physics import state as physics
from fuelcircuits.physics.atmosphere import Weather
from fuelcircuits.physics.bowl_heat import coolant
from fuelcircuits.physics.choke import coil_step, fast_idle, pull_off, rest_angle
from fuelcircuits.physics.choke_plate import plate_angle
from fuelcircuits.physics.fuel import Fuel
from fuelcircuits.physics.network import curb_idle, solve
from fuelcircuits.physics.plate import OPEN
from fuelcircuits.physics.settings import Settings
from fuelcircuits.physics.vapour_share import vapour_share
from fuelcircuits.rig import Rig

__all__ = ["WarmUp", "idle_stop", "warm_up"]

Floats = NDArray[np.float64]

END, COUNT, ROUNDS = 480.0, 61, 3
"""Length of the run [s], its points, and the rounds in which plate and flows settle together."""
GRID = 10.0
"""Distance of the temperatures of the runs from which others start [K]."""


class WarmUp(NamedTuple):
    """A warm-up in time."""

    times: Floats  # s
    coil: Floats  # K
    coolant: Floats  # K
    rest: Floats  # rad, where the coil alone would hold the plate
    plate: Floats  # rad
    held: Floats  # rad, where the pull-off holds it at least
    cam: Floats  # rad of throttle by the fast-idle cam
    throttle: Floats  # rad
    vapour: Floats  # share of the fuel that evaporates
    state: physics.State


@lru_cache(maxsize=16)
def idle_stop(card: Rig) -> float:
    """Return the throttle angle of the curb-idle stop, set on a mild day [rad]."""
    return float(curb_idle(card, Weather.at(), Fuel()).throttle_angle)


@lru_cache(maxsize=64)
def warm_up(
    card: Rig, rig: Rig, outside: float, speed: float, *, heated: bool = True, tapped: bool = True
) -> WarmUp:
    """Follow a warm-up.

    Parameters
    ----------
    card, rig
        The rig whose stop is kept, and the rig as it has been changed.
    outside
        Temperature of everything at the start [K].
    speed
        Engine speed, held [rad/s].
    heated
        Whether the coil gets its heat.
    tapped
        Whether the driver taps the pedal, so that the cam can fall.
    """
    air, times = Weather.at(temperature=outside), END * np.linspace(0.0, 1.0, COUNT) ** 1.5
    coil = coil_step(rig.choke, outside, outside, times, heated=heated)
    stop = idle_stop(card)
    start = None if _kept(card, rig, outside, speed) else _near(card, outside).state
    plate = _balanced(rig, air, coil, start, stop)
    for _ in range(ROUNDS):
        shown = plate if tapped else np.full(COUNT, plate[0])
        cam = np.minimum.accumulate(fast_idle(rig.choke, shown))
        settings = Settings(choke_angle=np.minimum(plate, OPEN), fuel_temperature=outside)
        start = solve(rig, air, Fuel(), speed, stop + cam, settings=settings, start=start)
        plate = _balanced(rig, air, coil, start, stop + cam)
    assert start is not None
    closed = rig.air_path.choke_closed_angle
    hot = coolant(rig.hot_soak, times, outside)
    return WarmUp(
        times=times,
        coil=coil,
        coolant=hot,
        rest=rest_angle(rig.choke, coil, closed),
        plate=plate,
        held=pull_off(rig.choke, start.manifold_vacuum, closed),
        cam=cam,
        throttle=stop + cam,
        vapour=vapour_share(
            rig, Fuel(), start.ratio, start.pressures.manifold, coolant=hot, outside=outside
        ),
        state=start,
    )


def _balanced(
    rig: Rig, air: Weather, coil: Floats, flows: physics.State | None, throttle: Floats | float
) -> Floats:
    """Return where the plate comes to rest with these flows, or with hardly any [rad]."""
    flow: Floats | float = 0.0 if flows is None else flows.air_flow
    vacuum: Floats | float = 50e3 if flows is None else flows.manifold_vacuum
    return plate_angle(
        rig.choke, rig.air_path, air, coil, flow, vacuum=vacuum, throttle_angle=throttle
    )


def _near(card: Rig, outside: float) -> WarmUp:
    """Return the card's own run at a temperature nearby, from which others start."""
    return warm_up(card, card, GRID * round(outside / GRID), float(card.engine.idle_speed))


def _kept(card: Rig, rig: Rig, outside: float, speed: float) -> bool:
    """Tell whether a run is one of those that `_near` gives."""
    return rig == card and outside % GRID == 0.0 and speed == card.engine.idle_speed

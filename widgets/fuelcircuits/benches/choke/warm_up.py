"""A warm-up: a cold engine at a held speed, with the choke opening as its coil is heated."""

from functools import lru_cache
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.benches.choke.table import ChokeTable, choke_table, read, start_between
from fuelcircuits.physics.circuits.choke import coil_step, fast_idle, pull_off, rest_angle
from fuelcircuits.physics.circuits.choke_plate import plate_angle
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.motion.bowl_heat import coolant
from fuelcircuits.physics.motion.vapour_share import vapour_share
from fuelcircuits.physics.network import state as physics
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.network.solving import solve

__all__ = ["END", "WarmUp", "warm_up"]

Floats = NDArray[np.float64]

END, COUNT, ROUNDS = 480.0, 61, 3
"""Length of the run [s], its points, and the rounds in which plate and flows settle together."""


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
    table = choke_table(card, outside, speed)
    plates = _plates(rig, air, coil, table)
    steps = _steps(fast_idle(rig.choke, plates) < table.cams[:, None], tapped)
    cam, shown = table.cams[steps], plates[steps, np.arange(COUNT)]
    settings = Settings(choke_angle=shown, fuel_temperature=outside)
    start = start_between(table, steps, shown)
    state = solve(rig, air, Fuel(), speed, table.stop + cam, settings=settings, start=start)
    plate = plate_angle(
        rig.choke,
        rig.air_path,
        air,
        coil,
        state.air_flow,
        vacuum=state.manifold_vacuum,
        throttle_angle=table.stop + cam,
    )
    closed = rig.air_path.choke_closed_angle
    hot = coolant(rig.hot_soak, times, outside)
    return WarmUp(
        times=times,
        coil=coil,
        coolant=hot,
        rest=rest_angle(rig.choke, coil, closed),
        plate=plate,
        held=pull_off(rig.choke, state.manifold_vacuum, closed),
        cam=cam,
        throttle=table.stop + cam,
        vapour=vapour_share(
            rig, Fuel(), state.ratio, state.pressures.manifold, coolant=hot, outside=outside
        ),
        state=state,
    )


def _plates(rig: Rig, air: Weather, coil: Floats, table: ChokeTable) -> Floats:
    """Return where the plate comes to rest at each time, one row a step of the cam [rad]."""
    plates = np.full((len(table.cams), COUNT), rig.air_path.choke_closed_angle)
    for _ in range(ROUNDS):
        plates = plate_angle(
            rig.choke,
            rig.air_path,
            air,
            coil,
            read(table, table.states.air_flow, plates),
            vacuum=read(table, table.states.manifold_vacuum, plates),
            throttle_angle=table.stop + table.cams[:, None],
        )
    return plates


def _steps(falls: NDArray[np.bool_], tapped: bool) -> NDArray[np.intp]:
    """Return the step of the cam at each time, from where it would fall off each step.

    Before the start the cam stands on its first step, and the start itself lets it fall.
    """
    steps, now = np.zeros(COUNT, dtype=np.intp), 0
    for i in range(COUNT):
        while (tapped or i == 0) and falls[now, i]:
            now += 1
        steps[i] = now
    return steps

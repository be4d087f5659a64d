"""The first minute and a half after a cold start: timer, coolant switch and idle air, in time."""

from functools import lru_cache
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.benches.choke.table import idle_stop
from fuelcircuits.physics.circuits.cold_start import ColdStart, egr_allowed, idle_air_open, timer_on
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.motion.bowl_heat import coolant
from fuelcircuits.physics.motion.vapour_share import vapour_share
from fuelcircuits.physics.network import state as physics
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.network.solving import solve

__all__ = ["END", "ColdRun", "cold_run"]

Floats = NDArray[np.float64]

END, EVEN, EDGE = 90.0, 90, 0.05
"""Length of the run [s], its even points, and how closely the timer's end is caught [s]."""
SHUT = np.linspace(0.0, 1.0, 9)
"""How far the valve shuts the idle air, where the carburettor is solved [1]."""


class ColdRun(NamedTuple):
    """The run; every array goes over the times."""

    times: Floats  # s
    coolant: Floats  # K
    timed: NDArray[np.bool_]  # whether the timer is on
    egr: NDArray[np.bool_]  # whether exhaust gas is let back
    vacuum: Floats  # Pa, manifold
    open: Floats  # share of the idle air passage
    mixture: Floats  # lambda delivered
    bare: float  # lambda with the passage open
    vapour: Floats  # share of the fuel that evaporates
    fuel: Floats  # kg/s
    air: Floats  # kg/s of idle air, one barrel


@lru_cache(maxsize=64)
def _idles(rig: Rig, outside: float) -> physics.State:
    """Return the curb idle, choke open, with the idle air shut more and more."""
    settings = Settings(idle_enrichment=SHUT, fuel_temperature=outside)
    air, stop = Weather.at(temperature=outside), idle_stop(rig)
    return solve(rig, air, Fuel(), rig.engine.idle_speed, stop, settings=settings)


def cold_run(rig: Rig, parts: ColdStart, outside: float, *, hose: bool = True) -> ColdRun:
    """Follow the engine from the moment at which it catches.

    Parameters
    ----------
    rig
        The rig.
    parts
        Timer, switch and valve.
    outside
        Temperature of everything at the start [K].
    hose
        Whether manifold vacuum reaches the coolant switch.
    """
    edges = np.clip([parts.timer - EDGE, parts.timer], 0.0, END)
    times = np.unique(np.concatenate([np.linspace(0.0, END, EVEN), edges]))
    hot, idles = coolant(rig.hot_soak, times, outside), _idles(rig, outside)
    opened, vacuum = np.ones_like(times), np.zeros_like(times)
    for _ in range(3):
        vacuum = np.interp(1 - opened, SHUT, idles.manifold_vacuum)
        felt = vacuum if hose else 0.0 * vacuum
        opened = idle_air_open(parts, hot, times, vacuum=felt)
    mixture, fuel, air, inside = (
        np.interp(1 - opened, SHUT, each)
        for each in (
            idles.mixture,
            idles.fuel_flow,
            idles.flows.idle_air.air[0],
            idles.pressures.manifold,
        )
    )
    ratio = mixture * float(idles.stoichiometric[0])
    return ColdRun(
        times=times,
        coolant=hot,
        timed=timer_on(parts, times),
        egr=egr_allowed(parts, times),
        vacuum=vacuum,
        open=opened,
        mixture=mixture,
        bare=float(idles.mixture[0]),
        vapour=vapour_share(rig, Fuel(), ratio, inside, coolant=hot, outside=outside),
        fuel=fuel,
        air=air,
    )

"""The engine of a warm-up for every place of its choke plate and every step of its cam.

A choke bench asks for the same engine again and again, with the plate a little further open.
So the engine is solved once for a row of plate angles on each step. Where the plate comes to
rest, and from where the exact solution starts, is then looked up.
"""

from functools import lru_cache
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.network.solving import curb_idle, solve
from fuelcircuits.physics.network.state import State
from fuelcircuits.physics.openings.plate import OPEN

__all__ = ["ChokeTable", "choke_table", "idle_stop", "read", "start_between"]

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]

ANGLES = 17
"""Plate angles of the table [1], closer to each other where the plate is nearly shut."""
FIRST = (270.0, 100.0)
"""Temperature [K] and speed [rad/s] of the table from which the others start."""


class ChokeTable(NamedTuple):
    """An engine at one temperature and speed."""

    stop: float  # rad, throttle angle of the curb-idle stop
    cams: Floats  # rad, throttle opening of each step of the cam; past the last it is 0
    angles: Floats  # rad, plate angles, rising
    states: State  # one row a step, one column an angle


@lru_cache(maxsize=16)
def idle_stop(card: Rig) -> float:
    """Return the throttle angle of the curb-idle stop, set on a mild day [rad]."""
    return float(curb_idle(card, Weather.at(), Fuel()).throttle_angle)


@lru_cache(maxsize=64)
def choke_table(card: Rig, outside: float, speed: float) -> ChokeTable:
    """Return the table of a rig.

    Parameters
    ----------
    card
        The rig.
    outside
        Temperature of air and fuel [K].
    speed
        Engine speed, held [rad/s].
    """
    closed = card.air_path.choke_closed_angle
    stop, cams = idle_stop(card), np.array([*card.choke.cam_openings, 0.0])
    angles = closed + (OPEN - closed) * np.linspace(0.0, 1.0, ANGLES) ** 1.5
    near = None if (outside, speed) == FIRST else choke_table(card, *FIRST).states
    states = solve(
        card,
        Weather.at(temperature=outside),
        Fuel(),
        speed,
        stop + cams[:, None],
        settings=Settings(choke_angle=angles, fuel_temperature=outside),
        start=near,
    )
    return ChokeTable(stop, cams, angles, states)


def read(table: ChokeTable, values: Floats, plates: Floats) -> Floats:
    """Return some values of the table at other plate angles, in between those it has.

    Parameters
    ----------
    table
        The table.
    values
        One row a step, one column an angle.
    plates
        Plate angles [rad], one row a step.
    """
    rows = zip(plates, values, strict=True)
    return np.stack([np.interp(plate, table.angles, row) for plate, row in rows])


def start_between(table: ChokeTable, steps: Indices, plates: Floats) -> State:
    """Return a state from which the exact one at these steps and plate angles may start.

    Parameters
    ----------
    table
        The table.
    steps
        Step of the cam at each point, 0 for the first.
    plates
        Plate angle at each point [rad].
    """
    unknowns = table.states.unknowns.reshape(-1, len(table.cams), ANGLES)
    left = np.clip(np.searchsorted(table.angles, plates) - 1, 0, ANGLES - 2)
    low, high = table.angles[left], table.angles[left + 1]
    share = (plates - low) / (high - low)
    between = (1 - share) * unknowns[:, steps, left] + share * unknowns[:, steps, left + 1]
    return table.states._replace(unknowns=between)

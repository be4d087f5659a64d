"""One network and its operating points, laid out for solving many points at once."""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.physics.circuits.bowl_vents import Vents
from fuelcircuits.physics.circuits.high_speed import HighSpeed
from fuelcircuits.physics.circuits.low_speed import LowSpeed
from fuelcircuits.physics.circuits.power import Power
from fuelcircuits.physics.engine.air_path import AirPath
from fuelcircuits.physics.engine.engine import Engine

__all__ = ["BLEED_DISCHARGE", "PORT_DISCHARGE", "Parts", "Points", "Problem"]

Floats = NDArray[np.float64]

BLEED_DISCHARGE = 0.8
"""Discharge coefficient of a drilled bleed or nozzle, a short tube [1] (common practice)."""
PORT_DISCHARGE = 0.7
"""Discharge coefficient of slot, screw port, economizer and valve [1] (common practice)."""


class Points(NamedTuple):
    """What differs from point to point; points are the last axis, barrels the first of three."""

    speed: Floats  # rad/s
    angle: Floats  # rad, throttle
    target: Floats  # what the last unknown is found for; nan if there is none
    pressure: Floats  # Pa, outside
    temperature: Floats  # K
    gas_constant: Floats  # J/(kg K)
    charge_temperature: Floats  # K
    fuel_density: Floats  # kg/m3
    viscosity: Floats  # Pa s
    stoichiometric: Floats  # air-fuel ratio
    bowl_level: Floats  # m above the specified one
    bowl_pressure: Floats  # Pa, if it is imposed; nan where the vents' balance gives it
    vapour: Floats  # kg/s
    canister: Floats  # Pa
    ignition: Floats
    choke: Floats  # m2, effective, past the choke plate
    idle_air: Floats  # m2, effective, (barrels, 1, points)
    port: Floats  # m2, effective, (barrels, 1, points)
    throttle: Floats  # m2, effective, one barrel
    below: Floats  # m2, effective, slot below the edge, (barrels, 1, points)
    above: Floats  # m2, effective, slot above the edge, (barrels, 1, points)
    vent_inside: Floats  # m2, effective
    vent_outside: Floats
    vent_canister: Floats
    vent_gasket: Floats
    demand_rate: Floats  # kg/(s Pa), the engine's air is this times manifold pressure,
    demand_loss: Floats  # kg/s, less this
    areas: Floats  # m2, effective, of every opening, (openings, 1, points)

    def take(self, index: NDArray[np.intp]) -> "Points":
        """Return some of the points."""
        if index.size == self.speed.size:
            return self
        return Points(*(each[..., index] for each in self))


class Parts(NamedTuple):
    """Effective areas that neither point nor pressure changes [m2]."""

    cleaner: float
    leak: float
    venturi: float  # one barrel
    bleed: Floats
    bypass: Floats
    economizer: Floats
    idle_jet: Floats  # geometric
    tube: Floats  # low-speed jet, air running back through it
    nozzle: Floats
    bled: Floats  # 1 where there is a main air bleed, else 0
    depths: Floats  # m, of the bleed holes, holes along the first axis
    slender: Floats  # main and low-speed jet, length over bore [1]
    lean: Floats  # main jet with the rod down, geometric
    valve: Floats  # bleed valve's seat
    ultimate: Floats  # main and low-speed jet, discharge coefficient at high Reynolds number [1]


@dataclass(frozen=True)
class Problem:
    """One network; entries of `low`, `high` and `rod` have the shape (barrels, 1, 1)."""

    engine: Engine
    air_path: AirPath
    vents: Vents
    low: LowSpeed
    high: HighSpeed
    rod: Power | None
    sections: tuple[LowSpeed, HighSpeed, Power | None]  # of the first barrel, as on the card
    parts: Parts
    gain: float  # of the booster
    barrels: int  # barrels told apart: 1 where all are alike
    alike: float  # real barrels for each of those
    free: str = ""  # "", "angle" or "speed": the last unknown

"""One network in its weather: all that neither its operating point nor its pressures change."""

from dataclasses import dataclass
from typing import NamedTuple

from fuelcircuits.physics.circuits.bowl_vents import Openings, Vents
from fuelcircuits.physics.circuits.high_speed import HighSpeed
from fuelcircuits.physics.circuits.low_speed import LowSpeed
from fuelcircuits.physics.circuits.off_idle import SlotAreas
from fuelcircuits.physics.circuits.power import Power
from fuelcircuits.physics.engine.air_path import AirPath
from fuelcircuits.physics.engine.engine import Engine
from fuelcircuits.physics.matter.atmosphere import Weather

__all__ = ["BLEED_DISCHARGE", "MOUTH", "PORT_DISCHARGE", "Barrel", "Point", "Problem"]

BLEED_DISCHARGE = 0.8
"""Discharge coefficient of a drilled bleed or nozzle, a short tube [1] (common practice).

It is kept whatever the flow, and that is a doubt: at idle the bleeds of the teaching rigs run at
a Reynolds number of 1500 to 1900. A relation measured on liquid in drilled holes
(`fuelcircuits.physics.openings.orifice`) gives 0.75 to 0.78 there and 0.77 to 0.81 far above, so
3 to 5 % less air at idle. No measurement on air in bleeds of this size was found.
"""
PORT_DISCHARGE = 0.7
"""Discharge coefficient of slot, screw port, economizer and valve [1] (common practice).

The same doubt as of a bleed, and a larger one: what passes is foam, and a screw's gap is a ring.
"""
MOUTH = 2.5e-3
"""Height over which nozzle lip, tube foot and well floor open as the fuel crosses them [m]."""


@dataclass(frozen=True, slots=True)
class Barrel:
    """One barrel's circuits and the openings in them; areas are effective ones [m2]."""

    path: AirPath
    choked: bool  # whether it draws from below the choke plate
    low: LowSpeed
    high: HighSpeed
    rod: Power | None
    bleed: float  # main air bleed
    bypass: float
    idle_air: float
    economizer: float
    port: float  # mixture screw's
    valve: float  # bleed valve's seat
    tube: float  # low-speed jet, air running back through it
    nozzle: float
    idle_jet: float  # geometric
    lean: float  # main jet with the rod down, geometric
    lifting: tuple[float, float]  # low-speed jet: length over bore, highest coefficient
    depths: list[float]  # m, of the bleed holes
    lift: float  # m: columns of fuel from the set level up to the by-pass,
    lip: float  # up to the nozzle's lip,
    foot: float  # down to the foot of the low-speed jet's tube,
    floor: float  # and down to that of the well
    fall: float  # m2/s2: weight of a kilogram, times its fall from mix to chamber
    venturi: float
    gain: float  # of the booster
    lost: float  # share of the venturi's drop that is not recovered


@dataclass(frozen=True, slots=True)
class Problem:
    """One network in one weather, set in one way; areas are effective ones [m2]."""

    engine: Engine
    air_path: AirPath
    vents: Vents
    barrels: tuple[Barrel, ...]  # those told apart: one where all are alike
    alike: float  # real barrels for each of those
    weather: Weather
    pressure: float  # Pa, outside
    temperature: float  # K
    gas_constant: float  # J/(kg K)
    gas: float  # J/kg, gas constant of the air times its temperature
    charge_temperature: float  # K
    density: float  # kg/m3, of the fuel
    weight: float  # N/m3, of the fuel
    mouth: float  # Pa, of a column of it as high as `MOUTH`
    viscosity: float  # Pa s
    stoichiometric: float  # kg of the moist air that just burn a kilogram of fuel
    head: float  # Pa, of the fuel in the bowl above the specified level
    bowl_pressure: float | None  # Pa, if it is imposed; else the vents' balance gives it
    vapour: float  # kg/s
    canister: float  # Pa
    ignition: float
    choke_angle: float  # rad
    cleaner: float
    choke: float  # past the choke plate
    leak: float


class Point(NamedTuple):
    """One operating point, and what follows from it alone; areas are effective ones [m2]."""

    speed: float  # rad/s
    angle: float  # rad, throttle
    throttles: list[float]  # of each barrel told apart
    slots: list[SlotAreas]  # of each barrel told apart
    vents: Openings
    demand_rate: float  # kg/(s Pa): the engine's air is this times manifold pressure,
    demand_loss: float  # kg/s: less this,
    demand_held: float = 0.0  # s/kg: less this times its square, where the exhaust is blocked
    fill_rate: float = 0.0  # kg/(s Pa): a filling manifold keeps this times its pressure,
    fill_loss: float = 0.0  # kg/s: less this

"""What burns of the charge, and the torque that comes of it."""

from typing import NamedTuple

from fuelcircuits.physics.engine.back_pressure import back_pressure
from fuelcircuits.physics.engine.engine import Engine
from fuelcircuits.physics.engine.recirculation import recirculated_share
from fuelcircuits.physics.engine.torque import AIR_HEAT, brake_torque, torque_factor
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.motion.crank import cold_friction
from fuelcircuits.physics.motion.fire import firing_share, residual_share
from fuelcircuits.physics.motion.vapour_share import burnable_share
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.state import State

__all__ = ["NOTHING", "Burning", "burning", "burnt_gas"]

LEAST = 1e-9
"""Fuel flow that keeps a mixture defined [kg/s]."""
LEANEST = 9.999
"""Lambda that stands for any leaner one [1]: what a meter shows."""


class Burning(NamedTuple):
    """What the cylinders take and make of it."""

    air: float  # kg/s
    fuel: float  # kg/s
    burnable: float  # share of that fuel which burns in time [1]
    mixture: float  # lambda of all of it [1]
    burnt: float  # lambda of what burns [1]
    fires: float  # share of the cycles that fire [1]
    torque: float  # N m at the crankshaft
    falls: float  # N m s, how fast it falls with speed at one flow of air


NOTHING = Burning(0.0, 0.0, 1.0, LEANEST, LEANEST, 0.0, 0.0, 0.0)
"""An engine at rest."""


def burning(
    rig: Rig,
    weather: Weather,
    fuel: Fuel,
    state: State,
    drawn: float,
    *,
    speed: float,
    coolant: float,
    ignition: bool,
) -> Burning:
    """Return what burns.

    Parameters
    ----------
    rig, weather, fuel
        Engine, air outside and fuel.
    state
        The network, with the air that the engine takes.
    drawn
        Fuel that it draws in with that [kg/s].
    speed
        Crankshaft speed [rad/s], positive.
    coolant
        Coolant temperature [K].
    ignition
        Whether there is a spark.

    References
    ----------
    `fuelcircuits.physics.engine.torque`, with the share of the cycles that
    `fuelcircuits.physics.motion.fire` lets fire.
    """
    air, pressure, reached = state.air_flow, state.pressures.manifold, max(drawn, LEAST)
    share = burnable_share(
        rig, fuel, air / reached, pressure, coolant=coolant, outside=weather.temperature
    )
    mixture = min(air / (reached * state.stoichiometric), LEANEST)
    burnt = min(air / (reached * share * state.stoichiometric), LEANEST)
    fires = firing_share(burnt, burnt_gas(rig.engine, air, pressure, weather.pressure))
    fires *= ignition
    factor = fires * torque_factor(burnt)
    torque = brake_torque(
        rig.engine,
        speed,
        air,
        pressure,
        weather.pressure,
        mixture_factor=factor,
        drag=cold_friction(coolant),
    )
    falls = rig.engine.indicated_efficiency * AIR_HEAT * factor * air / speed**2
    return Burning(air, drawn, share, mixture, burnt, fires, torque, falls)


def burnt_gas(engine: Engine, air: float, manifold: float, outside: float) -> float:
    """Return the share of burnt gas in the charge [1]: what stayed, and what was let back.

    `air` is what the engine takes [kg/s]; the pressures are absolute [Pa].
    """
    stayed = residual_share(engine, manifold, outside + back_pressure(engine, air))
    return 1.0 - (1.0 - stayed) * (1.0 - recirculated_share(engine, air, manifold, outside))

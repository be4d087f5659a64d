"""Air path and engine together: one balance."""

from typing import NamedTuple

from fuelcircuits.errors import positive
from fuelcircuits.physics.engine.air_path import (
    AirPath,
    choke_pressure,
    horn_pressure,
    manifold_leak,
    throttle_flow,
)
from fuelcircuits.physics.engine.back_pressure import held_back, hindered_air
from fuelcircuits.physics.engine.engine import (
    Engine,
    air_demand,
    manifold_pressure,
    manifold_temperature,
)
from fuelcircuits.physics.engine.recirculation import crowded_out, recirculated
from fuelcircuits.physics.engine.venturi import (
    booster_pressure,
    throttle_pressure,
    venturi_pressure,
)
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.numerics.root import root
from fuelcircuits.physics.openings.plate import OPEN

__all__ = ["AirState", "Pressures", "pressures", "solve"]


class Pressures(NamedTuple):
    """Absolute pressures along the path [Pa]."""

    horn: float  # after the cleaner, above the choke plate
    choke: float  # below the choke plate, above the venturis
    venturi: float  # in the throat of the main venturi
    booster: float  # in the throat of the booster, where the nozzle ends
    throttle: float  # below the venturis, above the throttle plate


class AirState(NamedTuple):
    """What the air does at an operating point: flows [kg/s], absolute pressures [Pa]."""

    engine_flow: float  # air into the cylinders
    carburettor_flow: float  # air through the horn
    leak_flow: float  # air through a leak into the manifold
    ambient_pressure: float
    horn_pressure: float  # above the choke plate
    choke_pressure: float  # below it
    venturi_pressure: float  # main venturi's throat
    booster_pressure: float  # booster's throat
    throttle_pressure: float  # above the throttle plates
    manifold_pressure: float

    @property
    def manifold_vacuum(self) -> float:
        """Ambient less manifold pressure [Pa], what a vacuum gauge shows."""
        return self.ambient_pressure - self.manifold_pressure

    @property
    def booster_depression(self) -> float:
        """Horn less booster pressure [Pa], what lifts the fuel of a bowl vented to the horn."""
        return self.horn_pressure - self.booster_pressure


def pressures(
    air_path: AirPath, weather: Weather, air_flow: float, choke_angle: float = OPEN
) -> Pressures:
    """Return every pressure above the throttle for a given air flow.

    Parameters
    ----------
    air_path
        The path.
    weather
        The air outside.
    air_flow
        Air through all barrels [kg/s].
    choke_angle
        Angle of the choke plate from the plane across the horn [rad].

    Returns
    -------
    Pressures
        In the order in which the air meets them [Pa].
    """
    horn = horn_pressure(air_path, weather, air_flow)
    choke = choke_pressure(air_path, horn, air_flow, weather, choke_angle)
    venturi = venturi_pressure(air_path, choke, air_flow, weather)
    booster = booster_pressure(air_path, choke, venturi)
    return Pressures(horn, choke, venturi, booster, throttle_pressure(air_path, choke, venturi))


def solve(
    engine: Engine,
    air_path: AirPath,
    weather: Weather,
    speed: float,
    throttle_angle: float,
    *,
    choke_angle: float = OPEN,
    exhaust_pressure: float | None = None,
    vapour_ratio: float = 0.0,
    tolerance: float = 1e-13,
) -> AirState:
    """Return flows and pressures of the air at given speed and throttle angle.

    The unknown is the manifold pressure: a higher one makes the engine ask for more and the
    throttle give less, so there is one balance, and a bracket always holds it.

    Parameters
    ----------
    engine, air_path, weather
        The engine, the way of its air, and the air outside.
    speed
        Crankshaft speed [rad/s], positive.
    throttle_angle, choke_angle
        Angles of the plates from the plane across their bores [rad].
    exhaust_pressure
        Absolute pressure beyond the exhaust valve [Pa]; ambient if not given.
    vapour_ratio
        Mass of fuel vapour for each kilogram of air [1].
    tolerance
        How closely the manifold pressure is found, as a share of it [1].

    Returns
    -------
    AirState
        Flows [kg/s] and absolute pressures [Pa].

    Raises
    ------
    RangeError
        If an argument is out of range.

    References
    ----------
    Conservation of mass; each part's own equation and source stand with it.
    """
    positive("speed", speed, "rad/s")
    temperature = manifold_temperature(engine, weather.temperature)
    outside = weather.pressure
    beyond = outside if exhaust_pressure is None else exhaust_pressure

    def free(pressure: float) -> float:
        return air_demand(engine, speed, pressure, temperature, beyond, vapour_ratio=vapour_ratio)

    held = held_back(engine, -free(0.0), beyond)

    def demand(pressure: float) -> float:
        back = crowded_out(recirculated(engine, pressure, beyond), temperature)
        return hindered_air(free(pressure), held) - back

    def leak(pressure: float) -> float:
        return manifold_leak(air_path, pressure, weather)

    def surplus(pressure: float) -> float:
        wanted = demand(pressure) - leak(pressure)
        before = pressures(air_path, weather, wanted, choke_angle).throttle
        return throttle_flow(air_path, throttle_angle, before, pressure, weather) - wanted

    low = manifold_pressure(engine, speed, 0.0, temperature, beyond)
    pressure = root(surplus, low, outside, name="manifold pressure", tolerance=tolerance)
    taken, leaked = demand(pressure), leak(pressure)
    path = pressures(air_path, weather, taken - leaked, choke_angle)
    return AirState(taken, taken - leaked, leaked, outside, *path, pressure)

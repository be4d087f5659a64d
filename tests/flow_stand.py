"""A rig on the flow stand: its mixture curve, which tests read."""

from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.curves import path, stand
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.solving import curb_idle
from fuelcircuits.physics.network.state import State

__all__ = ["on_flow_stand"]


def on_flow_stand(rig: Rig, weather: Weather, fuel: Fuel, *, count: int = 300) -> list[State]:
    """Return the steady states from curb idle to wide open, in order of throttle angle."""
    idle = curb_idle(rig, weather, fuel)
    return path(rig, weather, fuel, stand(rig, idle.throttle_angle, count), start=idle)

"""What is read on a cold engine: the choke plate, and the mixture while enrichment is timed."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from fuelcircuits.diagnosis.subject import Subject
from fuelcircuits.physics import choke
from fuelcircuits.physics.choke_plate import plate_angle
from fuelcircuits.physics.cold_start import idle_air_open

__all__ = ["cold_mixture", "plate_after", "plate_at_start", "plate_pulled"]

CRANKED_AIR = 0.004  # kg/s, what a fast-idling engine draws
PULLING = 55e3  # Pa, manifold vacuum just after the start
HEATED = 300.0  # s
LEANEST = 60.0


def _plate(car: Subject, coil: float, vacuum: float) -> float:
    """Return the choke plate's angle [rad] with its coil at a temperature [K]."""
    at, rig = car.warmed.weather, car.rig
    return float(plate_angle(rig.choke, rig.air_path, at, coil, CRANKED_AIR, vacuum=vacuum))


def plate_at_start(car: Subject) -> float:
    """Angle of the choke plate of a cold engine that stands [rad]."""
    return _plate(car, float(car.warmed.weather.temperature), 0.0)


def plate_pulled(car: Subject) -> float:
    """Angle to which the pull-off brings it at once after the start [rad]."""
    return _plate(car, float(car.warmed.weather.temperature), PULLING)


def plate_after(car: Subject) -> float:
    """Angle after five minutes at fast idle [rad]."""
    cold = float(car.warmed.weather.temperature)
    return _plate(car, float(choke.coil_step(car.rig.choke, cold, cold, HEATED)), PULLING)


def cold_mixture(coolant: float, seconds: float) -> Callable[[Subject], float]:
    """Return the reading of lambda at idle, coolant [K], so many seconds after the start."""

    def reading(car: Subject) -> float:
        shut = 1.0 - float(idle_air_open(car.rig.cold_start, coolant, seconds))
        state = car.run(replace(car.leveled, idle_enrichment=shut))
        return float(np.minimum(state.ratio[0], LEANEST) / state.stoichiometric[0])

    return reading

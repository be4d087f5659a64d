"""What is read on a cold engine: the choke plate, and the mixture while enrichment is timed.

Minutes and uncertainties are common practice, no source.
"""

from collections.abc import Callable
from math import radians

from fuelcircuits.diagnosis.check import ENGINE_RUNS, Check
from fuelcircuits.diagnosis.subject import IDLE, Subject, shown_lambda
from fuelcircuits.physics.circuits import choke
from fuelcircuits.physics.circuits.choke_plate import plate_angle
from fuelcircuits.physics.circuits.cold_start import idle_air_open

__all__ = ["COLD_CHECKS"]

CRANKED_AIR = 0.004  # kg/s, what a fast-idling engine draws
PULLING = 55e3  # Pa, manifold vacuum just after the start
HEATED = 300.0  # s


def _plate(car: Subject, coil: float, vacuum: float) -> float:
    """Return the choke plate's angle [rad] with its coil at a temperature [K]."""
    at, rig = car.warmed.weather, car.rig
    return plate_angle(rig.choke, rig.air_path, at, coil, CRANKED_AIR, vacuum=vacuum)


def _plate_at_start(car: Subject) -> float:
    """Angle of the choke plate of a cold engine that stands [rad]."""
    return _plate(car, car.warmed.weather.temperature, 0.0)


def _plate_pulled(car: Subject) -> float:
    """Angle to which the pull-off brings it at once after the start [rad]."""
    return _plate(car, car.warmed.weather.temperature, PULLING)


def _plate_after(car: Subject) -> float:
    """Angle after five minutes at fast idle [rad]."""
    cold = car.warmed.weather.temperature
    return _plate(car, choke.coil_step(car.rig.choke, cold, cold, HEATED), PULLING)


def _cold_mixture(coolant: float, seconds: float) -> Callable[[Subject], float]:
    """Return the reading of lambda at idle, coolant [K], so many seconds after the start."""

    def reading(car: Subject) -> float:
        shut = 1.0 - idle_air_open(car.rig.cold_start, coolant, seconds)
        return shown_lambda(car.at(IDLE, idle_enrichment=shut))

    return reading


COLD_CHECKS: tuple[Check, ...] = (
    Check(
        "choke-at-start",
        "Choke plate of a cold engine, angle",
        unit="deg",
        low=0.0,
        high=95.0,
        minutes=3,
        floor=radians(2.0),
        read=_plate_at_start,
        needs=("choke",),
    ),
    Check(
        "choke-pulled",
        "Choke plate just after a cold start, angle",
        unit="deg",
        low=0.0,
        high=95.0,
        minutes=4,
        floor=radians(2.0),
        read=_plate_pulled,
        needs=("choke",),
        caution=ENGINE_RUNS,
    ),
    Check(
        "choke-after-five",
        "Choke plate five minutes after a cold start, angle",
        unit="deg",
        low=0.0,
        high=95.0,
        minutes=8,
        floor=radians(2.0),
        read=_plate_after,
        needs=("choke",),
        caution=ENGINE_RUNS,
    ),
    Check(
        "cold-mixture-soon",
        "Lambda at idle 12 s after a cold start",
        unit="",
        low=0.0,
        high=6.0,
        minutes=40,
        floor=0.03,
        read=_cold_mixture(268.15, 12.0),
        needs=("cold_start",),
        caution=ENGINE_RUNS,
    ),
    Check(
        "cold-mixture-later",
        "Lambda at idle 100 s after a cold start",
        unit="",
        low=0.0,
        high=6.0,
        minutes=42,
        floor=0.03,
        read=_cold_mixture(268.15, 100.0),
        needs=("cold_start",),
        caution=ENGINE_RUNS,
    ),
    Check(
        "warm-mixture-soon",
        "Lambda at idle 12 s after a warm start",
        unit="",
        low=0.0,
        high=6.0,
        minutes=20,
        floor=0.03,
        read=_cold_mixture(330.0, 12.0),
        needs=("cold_start",),
        caution=ENGINE_RUNS,
    ),
)
"""Choke plate, and the mixture of a cold start."""

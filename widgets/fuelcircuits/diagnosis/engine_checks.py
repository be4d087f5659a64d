"""What is read on a warm engine that runs: vacuum, pressure and mixture at each load.

Minutes and uncertainties are common practice, no source.
"""

from collections.abc import Callable

from fuelcircuits.diagnosis.check import ENGINE_RUNS, Check
from fuelcircuits.diagnosis.subject import IDLE, POINTS, Subject, shown_lambda
from fuelcircuits.physics.circuits.canister import purge_air

__all__ = ["ENGINE_CHECKS"]


def _mixture(load: str) -> Callable[[Subject], float]:
    """Return the reading of lambda at a load."""
    at = POINTS.index(load)
    return lambda car: shown_lambda(car.running(at))


def _vacuum(load: str) -> Callable[[Subject], float]:
    at = POINTS.index(load)
    return lambda car: car.running(at).manifold_vacuum


def _port_vacuum(car: Subject) -> float:
    return car.running(IDLE).chamber_vacuum[0]


def _bowl_pressure(load: str) -> Callable[[Subject], float]:
    at = POINTS.index(load)
    return lambda car: car.running(at).pressures.bowl - car.warmed.weather.pressure


def _purge(car: Subject) -> float:
    manifold = car.running(IDLE).pressures.manifold
    return purge_air(car.rig.canister, manifold, car.warmed.weather.pressure)


ENGINE_CHECKS: tuple[Check, ...] = (
    Check(
        "idle-vacuum",
        "Manifold vacuum at warm idle",
        unit="inHg",
        low=0.0,
        high=30.0,
        minutes=3,
        floor=800.0,
        read=_vacuum("idle"),
        caution=ENGINE_RUNS,
    ),
    Check(
        "purge",
        "Air through the canister's purge line at idle",
        unit="g/s",
        low=0.0,
        high=5.0,
        minutes=5,
        floor=2e-6,
        share=0.1,
        read=_purge,
        needs=("canister",),
        caution=ENGINE_RUNS,
    ),
    Check(
        "port-vacuum",
        "Idle-port vacuum at warm idle",
        unit="inH2O",
        low=0.0,
        high=100.0,
        minutes=8,
        floor=25.0,
        share=0.02,
        read=_port_vacuum,
        caution=ENGINE_RUNS,
    ),
    Check(
        "idle-mixture",
        "Lambda at warm idle",
        unit="",
        low=0.0,
        high=6.0,
        minutes=10,
        floor=0.02,
        read=_mixture("idle"),
        caution=ENGINE_RUNS,
    ),
    Check(
        "off-idle-mixture",
        "Lambda just off idle",
        unit="",
        low=0.0,
        high=6.0,
        minutes=15,
        floor=0.02,
        read=_mixture("off idle"),
        caution=ENGINE_RUNS,
    ),
    Check(
        "cruise-mixture",
        "Lambda at cruise",
        unit="",
        low=0.0,
        high=6.0,
        minutes=18,
        floor=0.02,
        read=_mixture("cruise"),
        caution=ENGINE_RUNS,
    ),
    Check(
        "hot-bowl-pressure",
        "Bowl pressure at cruise, bowl hot",
        unit="inH2O",
        low=-100.0,
        high=100.0,
        minutes=20,
        floor=20.0,
        share=0.03,
        read=_bowl_pressure("hot cruise"),
        caution=ENGINE_RUNS,
    ),
    Check(
        "full-load-mixture",
        "Lambda at full load",
        unit="",
        low=0.0,
        high=6.0,
        minutes=30,
        floor=0.02,
        read=_mixture("full load"),
        caution=ENGINE_RUNS,
    ),
    Check(
        "full-load-vacuum",
        "Manifold vacuum at full load",
        unit="inHg",
        low=0.0,
        high=30.0,
        minutes=30,
        floor=300.0,
        share=0.02,
        read=_vacuum("full load"),
        caution=ENGINE_RUNS,
    ),
    Check(
        "full-load-bowl-pressure",
        "Bowl pressure at full load",
        unit="inH2O",
        low=-100.0,
        high=100.0,
        minutes=32,
        floor=30.0,
        share=0.03,
        read=_bowl_pressure("full load"),
        caution=ENGINE_RUNS,
    ),
)
"""Vacuum, pressures and mixture of a warm engine."""

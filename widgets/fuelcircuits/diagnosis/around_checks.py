"""What is read around a carburettor before anybody blames it: spark, cylinders, hoses, exhaust.

Minutes and uncertainties are common practice, no source.
"""

from collections.abc import Callable
from dataclasses import replace
from math import pi, radians
from typing import Any

from fuelcircuits.diagnosis.check import ENGINE_RUNS, PETROL_OPEN, Check
from fuelcircuits.diagnosis.subject import POINTS, Subject
from fuelcircuits.physics.engine.back_pressure import back_pressure
from fuelcircuits.physics.engine.needle import swing
from fuelcircuits.physics.matter.fuel import Fuel, density

__all__ = ["AROUND_CHECKS", "SPARK"]

SPARK = (
    "Ignition voltage can stop a heart: engine off before a lead is touched, insulated pliers, "
    "the lead's end on earth. Short tests only: raw fuel burns in a catalyst."
)
HELD = 2500 * pi / 30
"""Speed that is held in neutral [rad/s]."""
COOL = 288.15
"""Temperature at which a hydrometer's reading is told [K]."""
LEAST_PRESSED = 0.4
"""Compression left in a cylinder that does no work, of a good one's [1]; common practice, no
source. Between the two it goes in a straight line."""
RPM = pi / 30
FULL_LOAD = POINTS.index("full load")


def _idle_speed(car: Subject) -> float:
    """Return the speed that it idles at [rad/s]; none where it stalls."""
    return 0.0 if car.left_alone is None else car.left_alone.speed


def _idle_vacuum(car: Subject) -> float:
    """Return the manifold vacuum at that idle [Pa]; none where it stalls."""
    return 0.0 if car.left_alone is None else car.left_alone.manifold_vacuum


def _swing(car: Subject) -> float:
    """Return how far an undamped needle swings at idle [Pa]; a stalled engine's stands still."""
    idling = car.left_alone if car.rig.engine.dead_cylinders else None
    if idling is None:
        return 0.0
    return swing(car.rig.engine, idling.speed, idling.pressures.manifold)


def _one_out(car: Subject) -> float:
    """Return the least speed that is lost when one cylinder after another is put out [rad/s]."""
    engine, now = car.rig.engine, _idle_speed(car)
    whole = replace(engine, dead_cylinders=max(engine.dead_cylinders, 1.0))
    return now - _idle_speed(_changed(car, engine=whole))


def _compression(car: Subject) -> float:
    return 1.0 - (1.0 - LEAST_PRESSED) * min(car.rig.engine.dead_cylinders, 1.0)


def _pinched(entry: str) -> Callable[[Subject], float]:
    """Return the reading of the vacuum gained when the hose of an entry is pinched [Pa]."""

    def reading(car: Subject) -> float:
        if not getattr(car.rig.air_path, entry):
            return 0.0
        path = replace(car.rig.air_path, **{entry: 0.0})
        return _idle_vacuum(_changed(car, air_path=path)) - _idle_vacuum(car)

    return reading


def _blanked(car: Subject) -> float:
    """Return the speed gained when the recirculation is shut off by a plate [rad/s]."""
    if not car.rig.engine.recirculation:
        return 0.0
    engine = replace(car.rig.engine, recirculation=0.0)
    return _idle_speed(_changed(car, engine=engine)) - _idle_speed(car)


def _before_exhaust(car: Subject) -> float:
    """Return the pressure before the exhaust at a held speed [Pa]; none before a free one."""
    engine = car.rig.engine
    return back_pressure(engine, car.revved(HELD).air_flow) if engine.exhaust_resistance else 0.0


def _pull(car: Subject) -> float:
    """Return the torque at full load over that of the healthy car [1]."""
    healthy = replace(car.warmed, fuel=Fuel())
    sound = Subject(healthy, healthy.rig)
    return car.torque(car.running(FULL_LOAD)) / sound.torque(sound.running(FULL_LOAD))


def _changed(car: Subject, **sections: Any) -> Subject:
    """Return the car with sections of its rig changed."""
    return Subject(car.warmed, replace(car.rig, **sections), car.settings)


AROUND_CHECKS: tuple[Check, ...] = (
    Check(
        "free-idle",
        "Idle speed, stop left alone",
        unit="rpm",
        low=0.0,
        high=3000.0,
        minutes=2,
        floor=12 * RPM,
        read=_idle_speed,
        caution=ENGINE_RUNS,
    ),
    Check(
        "free-vacuum",
        "Manifold vacuum at that idle",
        unit="inHg",
        low=0.0,
        high=30.0,
        minutes=3,
        floor=800.0,
        read=_idle_vacuum,
        caution=ENGINE_RUNS,
    ),
    Check(
        "needle-swing",
        "Swing of the vacuum needle at idle",
        unit="inHg",
        low=0.0,
        high=20.0,
        minutes=3,
        floor=500.0,
        share=0.1,
        read=_swing,
        caution=ENGINE_RUNS,
    ),
    Check(
        "crankcase-hose-pinched",
        "Vacuum gained with the crankcase hose pinched, beyond the usual",
        unit="inHg",
        low=-5.0,
        high=30.0,
        minutes=3,
        floor=400.0,
        read=_pinched("crankcase_leak"),
        caution=ENGINE_RUNS,
    ),
    Check(
        "held-vacuum",
        "Manifold vacuum at a held 2500 rpm, neutral",
        unit="inHg",
        low=0.0,
        high=30.0,
        minutes=4,
        floor=700.0,
        read=lambda car: car.revved(HELD).manifold_vacuum,
        caution=ENGINE_RUNS,
    ),
    Check(
        "hoses-pinched",
        "Vacuum gained with the other hoses pinched",
        unit="inHg",
        low=-5.0,
        high=30.0,
        minutes=5,
        floor=400.0,
        read=_pinched("hose_leak"),
        caution=ENGINE_RUNS,
    ),
    Check(
        "fuel-density",
        "Density of the fuel at 15 °C, hydrometer",
        unit="kg/m^3",
        low=600.0,
        high=900.0,
        minutes=5,
        floor=3.0,
        read=lambda car: density(car.warmed.fuel, COOL),
        caution=PETROL_OPEN,
    ),
    Check(
        "riser-heat",
        "Manifold's floor warmer than the air, warm engine",
        unit="delta_degC",
        low=-10.0,
        high=200.0,
        minutes=6,
        floor=4.0,
        read=lambda car: car.rig.engine.charge_heating,
        caution=ENGINE_RUNS,
    ),
    Check(
        "timing",
        "Spark late of the card's mark, timing light",
        unit="deg",
        low=-60.0,
        high=60.0,
        minutes=8,
        floor=radians(1.0),
        read=lambda car: car.rig.engine.spark_late,
        caution=f"{ENGINE_RUNS} {SPARK}",
    ),
    Check(
        "one-cylinder-out",
        "Least idle speed lost, one cylinder put out after another",
        unit="rpm",
        low=-500.0,
        high=3000.0,
        minutes=12,
        floor=12 * RPM,
        read=_one_out,
        caution=f"{ENGINE_RUNS} {SPARK}",
    ),
    Check(
        "recirculation-blanked",
        "Idle speed gained with the recirculation blanked off",
        unit="rpm",
        low=-500.0,
        high=3000.0,
        minutes=15,
        floor=12 * RPM,
        read=_blanked,
        caution=ENGINE_RUNS,
    ),
    Check(
        "exhaust-pressure",
        "Pressure before the exhaust at a held 2500 rpm",
        unit="psi",
        low=0.0,
        high=30.0,
        minutes=25,
        floor=700.0,
        share=0.03,
        read=_before_exhaust,
        caution=ENGINE_RUNS,
    ),
    Check(
        "pull",
        "Pull at full load on the rolling road, of the card's",
        unit="%",
        low=0.0,
        high=130.0,
        minutes=40,
        floor=0.02,
        read=_pull,
        caution=ENGINE_RUNS,
    ),
    Check(
        "compression",
        "Compression of the lowest cylinder over the best",
        unit="%",
        low=0.0,
        high=100.0,
        minutes=30,
        floor=0.03,
        read=_compression,
        caution=SPARK,
    ),
)
"""Idle left alone, needle, hoses, spark, cylinders, heat, recirculation, exhaust, fuel."""

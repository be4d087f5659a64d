"""What is read around a carburettor before anybody blames it: spark, cylinders, hoses, exhaust.

Labels, minutes and uncertainties stand in `around_checks.toml`.
"""

import tomllib
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from importlib.resources import files
from math import pi

from fuelcircuits.diagnosis.check import ENGINE_RUNS, PETROL_OPEN, Check
from fuelcircuits.diagnosis.subject import FULL_LOAD, Subject
from fuelcircuits.physics.engine.back_pressure import back_pressure
from fuelcircuits.physics.engine.needle import swing
from fuelcircuits.physics.matter.fuel import density
from fuelcircuits.quantities.number_text import parts
from fuelcircuits.quantities.written import spelt_unit

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
    return now - _idle_speed(car.changed(engine=whole))


def _compression(car: Subject) -> float:
    return 1.0 - (1.0 - LEAST_PRESSED) * min(car.rig.engine.dead_cylinders, 1.0)


def _pinched(entry: str) -> Callable[[Subject], float]:
    """Return the reading of the vacuum gained when the hose of an entry is pinched [Pa]."""

    def reading(car: Subject) -> float:
        if not getattr(car.rig.air_path, entry):
            return 0.0
        path = replace(car.rig.air_path, **{entry: 0.0})
        return _idle_vacuum(car.changed(air_path=path)) - _idle_vacuum(car)

    return reading


def _blanked(car: Subject) -> float:
    """Return the speed gained when the recirculation is shut off by a plate [rad/s]."""
    if not car.rig.engine.recirculation:
        return 0.0
    engine = replace(car.rig.engine, recirculation=0.0)
    return _idle_speed(car.changed(engine=engine)) - _idle_speed(car)


def _before_exhaust(car: Subject) -> float:
    """Return the pressure before the exhaust at a held speed [Pa]; none before a free one."""
    engine = car.rig.engine
    return back_pressure(engine, car.revved(HELD).air_flow) if engine.exhaust_resistance else 0.0


def _pull(car: Subject) -> float:
    """Return the torque at full load over that of the healthy car [1]; none where it only drags."""
    return max(car.torque(car.running(FULL_LOAD)) / car.warmed.pull, 0.0)


_READS: Mapping[str, Callable[[Subject], float]] = {
    "free-idle": _idle_speed,
    "free-vacuum": _idle_vacuum,
    "needle-swing": _swing,
    "crankcase-hose-pinched": _pinched("crankcase_leak"),
    "held-vacuum": lambda car: car.revved(HELD).manifold_vacuum,
    "hoses-pinched": _pinched("hose_leak"),
    "fuel-density": lambda car: density(car.warmed.fuel, COOL),
    "riser-heat": lambda car: car.rig.engine.charge_heating,
    "timing": lambda car: car.rig.engine.spark_late,
    "one-cylinder-out": _one_out,
    "recirculation-blanked": _blanked,
    "exhaust-pressure": _before_exhaust,
    "pull": _pull,
    "compression": _compression,
}
"""The reading of each check of `around_checks.toml` [SI]."""


def _listed() -> Iterator[Check]:
    """Yield every check that the file lists."""
    text = (files(__package__) / "around_checks.toml").read_text("utf-8")
    for name, one in tomllib.loads(text).items():
        numbers, unit, _ = parts(one["floor"])
        made = {
            "floor": numbers[0] * spelt_unit(unit).one,
            "caution": one["caution"].format(runs=ENGINE_RUNS, petrol=PETROL_OPEN, spark=SPARK),
        }
        yield Check(name, read=_READS[name], **one | made)


AROUND_CHECKS: tuple[Check, ...] = tuple(_listed())
"""Idle left alone, needle, hoses, spark, cylinders, heat, recirculation, exhaust, fuel."""

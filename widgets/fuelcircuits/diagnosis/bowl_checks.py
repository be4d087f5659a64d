"""What is read at the bowl: float, inlet, vents and pump, and the hot start that they make.

Minutes and uncertainties are common practice, no source.
"""

from collections.abc import Callable
from functools import lru_cache
from typing import NamedTuple

from fuelcircuits.diagnosis.check import ENGINE_RUNS, PETROL_OPEN, Check
from fuelcircuits.diagnosis.subject import POINTS, Subject
from fuelcircuits.physics.circuits import bowl_vents as vents
from fuelcircuits.physics.circuits import float_bowl
from fuelcircuits.physics.circuits.float_balance import WARM
from fuelcircuits.physics.circuits.float_lever import float_volume
from fuelcircuits.physics.circuits.pump import Pump
from fuelcircuits.physics.matter.fuel import density
from fuelcircuits.physics.motion.pump_shot import pump_run
from fuelcircuits.physics.numerics.interpolation import interpolate
from fuelcircuits.physics.openings.plate import OPEN

__all__ = ["BOWL_CHECKS"]


def _below_face(load: str) -> Callable[[Subject], float]:
    at = POINTS.index(load)
    return lambda car: car.rig.float_bowl.depth - car.bowl(at).level


def _inlet(car: Subject) -> float:
    return float_bowl.inlet_capacity(car.rig.float_bowl, car.warmed.fuel)


def _float_mass(car: Subject) -> float:
    bowl = car.rig.float_bowl
    soaked = bowl.soaked * float_volume(bowl) * density(car.warmed.fuel, WARM)
    return bowl.float_mass + soaked


def _outside_gap(angle: float) -> Callable[[Subject], float]:
    """Return the reading of how far the outside vent is open [m] at a throttle angle [rad]."""
    return lambda car: vents.outside_lift(car.rig.vents, angle or car.warmed.stop)


def _key_off_vent(car: Subject) -> float:
    return vents.openings(car.rig.vents, car.warmed.stop, ignition=0.0).canister


class Strokes(NamedTuple):
    """Two strokes of the pump into a measuring glass."""

    first: float  # m3
    second: float  # m3, of a stroke at once after the first
    lasts: float  # s from the first stroke until nine tenths of it have left the jets


@lru_cache(maxsize=512)
def _strokes(pump: Pump, stop: float) -> Strokes:
    """Return what two strokes of the throttle give, each held down until the jets are dry."""
    times = [tenths / 10 for tenths in range(130)]
    moves, angles = (0.1, 0.2, 6.2, 6.3, 7.0, 7.1), (stop, OPEN, OPEN, stop, stop, OPEN)
    throttle = [interpolate(now, moves, angles) for now in times]
    given = pump_run(pump, times, throttle, longest=0.01).delivered
    first, second = given[62], given[-1] - given[70]
    if not first > 0.0:
        return Strokes(first, second, 0.0)
    return Strokes(first, second, interpolate(0.9 * first, given[:63], times[:63]) - 0.1)


BOWL_CHECKS: tuple[Check, ...] = (
    Check(
        "fuel-pressure",
        "Fuel pressure at the inlet",
        unit="psi",
        low=0.0,
        high=30.0,
        minutes=5,
        floor=700.0,
        share=0.02,
        read=lambda car: car.rig.float_bowl.fuel_pressure,
        caution=PETROL_OPEN,
    ),
    Check(
        "inlet-flow",
        "Most the inlet passes, measuring glass",
        unit="g/s",
        low=0.0,
        high=200.0,
        minutes=10,
        floor=1e-4,
        share=0.04,
        read=_inlet,
        caution=PETROL_OPEN,
    ),
    Check(
        "level-at-idle",
        "Fuel below the cover's face at idle",
        unit="mm",
        low=0.0,
        high=80.0,
        minutes=12,
        floor=4e-4,
        read=_below_face("idle"),
        caution=PETROL_OPEN,
    ),
    Check(
        "full-load-level",
        "Fuel below the cover's face at full load",
        unit="mm",
        low=0.0,
        high=80.0,
        minutes=32,
        floor=4e-4,
        read=_below_face("full load"),
        caution=ENGINE_RUNS,
    ),
    Check(
        "float-setting",
        "Float setting, cover off",
        unit="mm",
        low=0.0,
        high=60.0,
        minutes=25,
        floor=2e-4,
        read=lambda car: car.rig.float_bowl.float_setting,
        caution=PETROL_OPEN,
        opening="bowl",
    ),
    Check(
        "float-mass",
        "Float on the scales",
        unit="g",
        low=1.0,
        high=100.0,
        minutes=28,
        floor=1e-4,
        share=0.01,
        read=_float_mass,
        caution=PETROL_OPEN,
        opening="bowl",
    ),
    Check(
        "key-off-vent",
        "Opening from bowl to canister, key off",
        unit="mm^2",
        low=0.0,
        high=500.0,
        minutes=8,
        floor=0.5e-6,
        share=0.05,
        read=_key_off_vent,
    ),
    Check(
        "vent-gap-shut",
        "Gap of the outside vent, throttle closed",
        unit="mm",
        low=0.0,
        high=20.0,
        minutes=10,
        floor=1e-4,
        read=_outside_gap(0.0),
    ),
    Check(
        "vent-gap-open",
        "Gap of the outside vent, throttle a third open",
        unit="mm",
        low=0.0,
        high=20.0,
        minutes=10,
        floor=1e-4,
        read=_outside_gap(0.52),
    ),
    Check(
        "hot-cranking",
        "Longest cranking in half an hour of hot soak",
        unit="s",
        low=0.0,
        high=120.0,
        minutes=45,
        floor=0.5,
        share=0.1,
        read=lambda car: car.cranking,
        needs=("hot_soak", "canister"),
        caution=ENGINE_RUNS,
        slow=True,
    ),
    Check(
        "shot",
        "One stroke of the pump, measuring glass",
        unit="ml",
        low=0.0,
        high=10.0,
        minutes=35,
        floor=3e-8,
        share=0.05,
        read=lambda car: _strokes(car.rig.pump, car.warmed.stop).first,
        needs=("pump",),
        caution=PETROL_OPEN,
        slow=True,
        opening="carburettor off",
    ),
    Check(
        "shot-time",
        "How long the pump's streams last, stopwatch",
        unit="s",
        low=0.0,
        high=10.0,
        minutes=6,
        floor=0.1,
        share=0.05,
        read=lambda car: _strokes(car.rig.pump, car.warmed.stop).lasts,
        needs=("pump",),
        caution=PETROL_OPEN,
        slow=True,
    ),
    Check(
        "second-shot",
        "A second stroke at once after the first",
        unit="ml",
        low=0.0,
        high=10.0,
        minutes=36,
        floor=3e-8,
        share=0.05,
        read=lambda car: _strokes(car.rig.pump, car.warmed.stop).second,
        needs=("pump",),
        caution=PETROL_OPEN,
        slow=True,
        opening="carburettor off",
    ),
)
"""Level, inlet, float, vents and pump."""

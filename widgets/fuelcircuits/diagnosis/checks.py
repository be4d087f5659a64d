"""The checks of a shop, cheapest first: what a practitioner reads, and where.

Minutes and uncertainties are common practice, no source.
"""

from collections.abc import Callable, Mapping
from functools import lru_cache
from math import radians
from types import MappingProxyType

import numpy as np

from fuelcircuits.diagnosis.check import Check
from fuelcircuits.diagnosis.cold_checks import (
    cold_mixture,
    plate_after,
    plate_at_start,
    plate_pulled,
)
from fuelcircuits.diagnosis.subject import POINTS, Subject
from fuelcircuits.errors import RangeError
from fuelcircuits.physics import float_bowl, vents
from fuelcircuits.physics.canister import purge_air
from fuelcircuits.physics.float_balance import WARM
from fuelcircuits.physics.float_lever import float_volume
from fuelcircuits.physics.fuel import density
from fuelcircuits.physics.pump import Pump
from fuelcircuits.physics.pump_shot import pump_run
from fuelcircuits.rig import Rig

__all__ = ["CHECKS", "find", "fitting"]

ENGINE_RUNS = "Engine runs: keep clear of fan and belts, lead the exhaust outside."
PETROL_OPEN = "Open petrol: no flame, no spark, moving air, an extinguisher within reach."
_MOST = 60.0  # no engine burns, and no instrument shows, a leaner mixture than this ratio


def _mixture(load: str) -> Callable[[Subject], float]:
    """Return the reading of lambda at a load."""
    at = POINTS.index(load)
    return lambda car: float(
        np.minimum(car.steady.ratio, _MOST)[at] / car.steady.stoichiometric[at]
    )


def _vacuum(load: str) -> Callable[[Subject], float]:
    at = POINTS.index(load)
    return lambda car: float(car.steady.manifold_vacuum[at])


def _port_vacuum(car: Subject) -> float:
    return float(car.steady.chamber_vacuum[0][0])


def _bowl_pressure(load: str) -> Callable[[Subject], float]:
    at = POINTS.index(load)
    return lambda car: float(car.steady.pressures.bowl[at] - car.warmed.weather.pressure)


def _outside_gap(angle: float) -> Callable[[Subject], float]:
    """Return the reading of how far the outside vent is open [m] at a throttle angle [rad]."""
    return lambda car: float(vents.outside_lift(car.rig.vents, angle or car.warmed.stop))


def _below_face(load: str) -> Callable[[Subject], float]:
    at = POINTS.index(load)
    return lambda car: float(car.rig.float_bowl.depth - np.asarray(car.bowl.level)[at])


def _inlet(car: Subject) -> float:
    return float(float_bowl.inlet_capacity(car.rig.float_bowl, car.warmed.fuel))


@lru_cache(maxsize=512)
def _given(pump: Pump, stop: float) -> tuple[float, float]:
    """Return the fuel [m3] of a stroke of the throttle, and of a second one after it."""
    times = np.linspace(0.0, 2.6, 27)
    throttle = np.interp(times, (0.1, 0.2, 1.0, 1.1, 1.8, 1.9), (stop, 1.4, 1.4, stop, stop, 1.4))
    given = pump_run(pump, times, throttle).delivered
    first, before = np.interp((1.0, 1.8), times, given)
    return float(first), float(given[-1] - before)


def _float_mass(car: Subject) -> float:
    bowl = car.rig.float_bowl
    soaked = bowl.soaked * float_volume(bowl) * density(car.warmed.fuel, WARM)
    return float(bowl.float_mass + soaked)


def _key_off_vent(car: Subject) -> float:
    return float(vents.openings(car.rig.vents, car.warmed.stop, ignition=0.0).canister)


def _purge(car: Subject) -> float:
    manifold = float(car.steady.pressures.manifold[0])
    return float(purge_air(car.rig.canister, manifold, car.warmed.weather.pressure))


CHECKS: tuple[Check, ...] = (
    Check(
        "idle-vacuum",
        "Manifold vacuum at warm idle",
        "inHg",
        3,
        800.0,
        0.0,
        _vacuum("idle"),
        caution=ENGINE_RUNS,
    ),
    Check(
        "fuel-pressure",
        "Fuel pressure at the inlet",
        "psi",
        5,
        700.0,
        0.02,
        lambda car: float(car.rig.float_bowl.fuel_pressure),
        caution=PETROL_OPEN,
    ),
    Check(
        "choke-at-start",
        "Choke plate of a cold engine, angle",
        "deg",
        3,
        radians(2.0),
        0.0,
        plate_at_start,
        needs=("choke",),
    ),
    Check(
        "choke-pulled",
        "Choke plate just after a cold start, angle",
        "deg",
        4,
        radians(2.0),
        0.0,
        plate_pulled,
        needs=("choke",),
        caution=ENGINE_RUNS,
    ),
    Check(
        "choke-after-five",
        "Choke plate five minutes after a cold start, angle",
        "deg",
        8,
        radians(2.0),
        0.0,
        plate_after,
        needs=("choke",),
        caution=ENGINE_RUNS,
    ),
    Check(
        "purge",
        "Air through the canister's purge line at idle",
        "g/s",
        5,
        2e-6,
        0.1,
        _purge,
        needs=("canister",),
        caution=ENGINE_RUNS,
    ),
    Check(
        "port-vacuum",
        "Idle-port vacuum at warm idle",
        "inH2O",
        8,
        25.0,
        0.02,
        _port_vacuum,
        caution=ENGINE_RUNS,
    ),
    Check(
        "key-off-vent",
        "Opening from bowl to canister, key off",
        "mm^2",
        8,
        0.5e-6,
        0.05,
        _key_off_vent,
    ),
    Check(
        "vent-gap-shut",
        "Gap of the outside vent, throttle closed",
        "mm",
        10,
        1e-4,
        0.0,
        _outside_gap(0.0),
    ),
    Check(
        "vent-gap-open",
        "Gap of the outside vent, throttle a third open",
        "mm",
        10,
        1e-4,
        0.0,
        _outside_gap(0.52),
    ),
    Check(
        "shot",
        "One stroke of the pump, measuring glass",
        "ml",
        8,
        3e-8,
        0.05,
        lambda car: _given(car.rig.pump, car.warmed.stop)[0],
        needs=("pump",),
        caution=PETROL_OPEN,
        slow=True,
    ),
    Check(
        "second-shot",
        "A second stroke at once after the first",
        "ml",
        9,
        3e-8,
        0.05,
        lambda car: _given(car.rig.pump, car.warmed.stop)[1],
        needs=("pump",),
        caution=PETROL_OPEN,
        slow=True,
    ),
    Check(
        "idle-mixture",
        "Lambda at warm idle",
        "",
        10,
        0.02,
        0.0,
        _mixture("idle"),
        caution=ENGINE_RUNS,
    ),
    Check(
        "inlet-flow",
        "Most the inlet passes, measuring glass",
        "g/s",
        10,
        1e-4,
        0.04,
        _inlet,
        caution=PETROL_OPEN,
    ),
    Check(
        "level-at-idle",
        "Fuel below the cover's face at idle",
        "mm",
        12,
        4e-4,
        0.0,
        _below_face("idle"),
        caution=PETROL_OPEN,
    ),
    Check(
        "off-idle-mixture",
        "Lambda just off idle",
        "",
        15,
        0.02,
        0.0,
        _mixture("off idle"),
        caution=ENGINE_RUNS,
    ),
    Check(
        "cruise-mixture",
        "Lambda at cruise",
        "",
        18,
        0.02,
        0.0,
        _mixture("cruise"),
        caution=ENGINE_RUNS,
    ),
    Check(
        "hot-bowl-pressure",
        "Bowl pressure at cruise, bowl hot",
        "inH2O",
        20,
        20.0,
        0.03,
        _bowl_pressure("hot cruise"),
        caution=ENGINE_RUNS,
    ),
    Check(
        "float-setting",
        "Float setting, cover off",
        "mm",
        25,
        2e-4,
        0.0,
        lambda car: float(car.rig.float_bowl.float_setting),
        caution=PETROL_OPEN,
    ),
    Check(
        "float-mass",
        "Float on the scales",
        "g",
        28,
        1e-4,
        0.01,
        _float_mass,
        caution=PETROL_OPEN,
    ),
    Check(
        "full-load-mixture",
        "Lambda at full load",
        "",
        30,
        0.02,
        0.0,
        _mixture("full load"),
        caution=ENGINE_RUNS,
    ),
    Check(
        "full-load-vacuum",
        "Manifold vacuum at full load",
        "inHg",
        30,
        300.0,
        0.02,
        _vacuum("full load"),
        caution=ENGINE_RUNS,
    ),
    Check(
        "full-load-bowl-pressure",
        "Bowl pressure at full load",
        "inH2O",
        32,
        30.0,
        0.03,
        _bowl_pressure("full load"),
        caution=ENGINE_RUNS,
    ),
    Check(
        "full-load-level",
        "Fuel below the cover's face at full load",
        "mm",
        32,
        4e-4,
        0.0,
        _below_face("full load"),
        caution=ENGINE_RUNS,
    ),
    Check(
        "cold-mixture-soon",
        "Lambda at idle 12 s after a cold start",
        "",
        40,
        0.03,
        0.0,
        cold_mixture(268.15, 12.0),
        needs=("cold_start",),
        caution=ENGINE_RUNS,
    ),
    Check(
        "cold-mixture-later",
        "Lambda at idle 100 s after a cold start",
        "",
        42,
        0.03,
        0.0,
        cold_mixture(268.15, 100.0),
        needs=("cold_start",),
        caution=ENGINE_RUNS,
    ),
    Check(
        "warm-mixture-soon",
        "Lambda at idle 12 s after a warm start",
        "",
        20,
        0.03,
        0.0,
        cold_mixture(330.0, 12.0),
        needs=("cold_start",),
        caution=ENGINE_RUNS,
    ),
    Check(
        "hot-cranking",
        "Longest cranking in half an hour of hot soak",
        "s",
        45,
        0.5,
        0.1,
        lambda car: car.cranking,
        needs=("hot_soak", "canister"),
        caution=ENGINE_RUNS,
        slow=True,
    ),
)
"""Every check, in the order in which a shop would think of them."""

BY_NAME: Mapping[str, Check] = MappingProxyType({check.name: check for check in CHECKS})


def find(name: str) -> Check:
    """Return the check of that name; raise `RangeError` naming the known ones if there is none."""
    if name not in BY_NAME:
        raise RangeError(f"check must be one of {', '.join(BY_NAME)}, got {name!r}")
    return BY_NAME[name]


def fitting(rig: Rig) -> tuple[Check, ...]:
    """Return the checks that a rig has the parts for."""
    return tuple(check for check in CHECKS if check.fits(rig))

"""What is wrong around a carburettor, and looks like a fault of it: spark, cylinders, hoses, gas.

How much each costs, `fuelcircuits.physics.engine` works out.
"""

from dataclasses import replace
from math import radians

from fuelcircuits.faults.change import Change, moved, raised
from fuelcircuits.faults.fault import Fault
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig

__all__ = ["AROUND_FAULTS"]

_LIGHT_ENDS, _LEAST_VAPOUR = 0.45, 30e3
_HEAVIER, _HEAVIEST = 20.0, 775.0


def _stale(fuel: Fuel, severity: float) -> Fuel:
    """Return fuel from which light parts have gone; what it may be at most is that of `Fuel`."""
    vapour = fuel.reid_vapour_pressure * (1 - _LIGHT_ENDS * severity)
    density = fuel.petrol_density + _HEAVIER * severity
    return replace(
        fuel,
        reid_vapour_pressure=max(vapour, min(_LEAST_VAPOUR, fuel.reid_vapour_pressure)),
        petrol_density=min(density, max(_HEAVIEST, fuel.petrol_density)),
    )


def _blocked(free: float, rig: Rig) -> float:
    """Return the resistance that holds 40 kPa back at the air of a held 2500 rpm [Pa s2/kg2].

    That is 6.5 g/s for each litre, on the teaching rigs.
    """
    return free + 40e3 / (6.5 * rig.engine.displacement) ** 2


AROUND_FAULTS = (
    Fault(
        "late-ignition",
        "ignition",
        "The spark comes late: at worst twelve degrees behind the card.",
        (raised("engine.spark_late", radians(12.0)),),
    ),
    Fault(
        "early-ignition",
        "ignition",
        "The spark comes early: at worst twelve degrees before the card.",
        (raised("engine.spark_late", radians(-12.0)),),
    ),
    Fault(
        "weak-cylinder",
        "cylinders",
        "A valve that is too tight or burnt, or worn rings, cost one cylinder its work: at worst "
        "all of it.",
        (raised("engine.dead_cylinders", 1.0),),
    ),
    Fault(
        "vacuum-hose-off",
        "hoses",
        "A vacuum hose is off or split: at worst it lets in air by 16 mm².",
        (raised("air_path.hose_leak", 16e-6),),
    ),
    Fault(
        "crankcase-valve-stuck-open",
        "hoses",
        "The crankcase valve hangs open at idle: at worst it lets in air by 8 mm² too much.",
        (raised("air_path.crankcase_leak", 8e-6),),
    ),
    Fault(
        "heat-riser-stuck-shut",
        "exhaust",
        "The heat riser's flap stays shut on a warm engine: at worst the charge is 35 K warmer.",
        (raised("engine.charge_heating", 35.0),),
    ),
    Fault(
        "heat-riser-stuck-open",
        "exhaust",
        "The heat riser's flap stays open: at worst the manifold is not heated at all.",
        (moved("engine.charge_heating", 0.0),),
    ),
    Fault(
        "recirculation-stuck-open",
        "exhaust",
        "The exhaust recirculation valve does not shut at idle: at worst 6 mm² stay open.",
        (raised("engine.recirculation", 6e-6),),
    ),
    Fault(
        "exhaust-restricted",
        "exhaust",
        "The exhaust is crushed or its catalyst has melted: at worst some 40 kPa stand before it "
        "at 2500 rpm in neutral.",
        (Change("engine.exhaust_resistance", _blocked),),
    ),
    Fault(
        "stale-fuel",
        "fuel",
        "The fuel has stood for too long: at worst it has lost 45 % of its vapour pressure and "
        "weighs 20 kg/m³ more.",
        tank=_stale,
    ),
)
"""Spark, cylinder, hoses, heat, recirculation, exhaust, fuel (sizes: common practice, no source).

A crankcase valve stuck shut is missing: what a healthy one passes is part of the air that the
throttle stop is set for, and no card tells how much.
"""

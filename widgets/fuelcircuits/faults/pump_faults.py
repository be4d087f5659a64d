"""Faults of the accelerator pump."""

from fuelcircuits.faults.change import narrowed, raised, scaled
from fuelcircuits.faults.fault import Fault

__all__ = ["PUMP_FAULTS"]

PUMP_FAULTS = (
    Fault(
        "torn-pump-cup",
        "pump",
        "The cup or diaphragm is hard, worn or torn: at worst 2 mm² pass beside it.",
        (raised("pump.cup_leak", 2e-6),),
    ),
    Fault(
        "leaking-pump-inlet-check",
        "pump",
        "The inlet check does not shut, and the shot runs back to the bowl: at worst by 2 mm².",
        (raised("pump.inlet_leak", 2e-6),),
    ),
    Fault(
        "leaking-pump-discharge-check",
        "pump",
        "The discharge check does not shut, and the pump draws air instead of fuel: at worst "
        "by 1 mm².",
        (raised("pump.discharge_leak", 1e-6),),
    ),
    Fault(
        "blocked-pump-jet",
        "pump",
        "The pump jets are blocked in part: at worst a quarter of their area is left.",
        (narrowed("pump.jet_bore", 0.25),),
    ),
    Fault(
        "pump-stroke-short",
        "pump",
        "The pump's link is in the wrong hole or worn: at worst half the travel is left.",
        (scaled("pump.linkage_rate", 0.5),),
    ),
)
"""Cup, checks, jets, linkage (sizes: common practice, no source)."""

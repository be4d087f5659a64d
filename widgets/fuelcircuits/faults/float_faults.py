"""Faults of the float circuit: what moves the fuel level, or lets the bowl run dry or over."""

from fuelcircuits.faults.change import moved, raised, scaled
from fuelcircuits.faults.fault import Fault

__all__ = ["FLOAT_FAULTS"]

FLOAT_FAULTS = (
    Fault(
        "soaked-float",
        "float",
        "The float has taken up fuel and lost buoyancy: at worst over four tenths of its volume.",
        (raised("float_bowl.soaked", 0.4),),
    ),
    Fault(
        "worn-needle-seat",
        "float",
        "A groove in needle or seat stays open when it should be shut: at worst 0.04 mm².",
        (raised("float_bowl.seat_leak", 0.04e-6),),
    ),
    Fault(
        "dirt-in-needle-seat",
        "float",
        "A crumb holds the needle off its seat: at worst by 0.8 mm².",
        (raised("float_bowl.seat_leak", 0.8e-6),),
    ),
    Fault(
        "clogged-inlet-strainer",
        "float",
        "The strainer before the needle is clogged: at worst about a fifth passes.",
        (moved("float_bowl.inlet_discharge", 0.15),),
    ),
    Fault(
        "high-fuel-pressure",
        "float",
        "The fuel pump pushes too hard on the needle: at worst with twice its pressure.",
        (scaled("float_bowl.fuel_pressure", 2.0),),
    ),
    Fault(
        "low-fuel-pressure",
        "float",
        "The fuel pump is tired or its line pinched: at worst it gives a fiftieth of its pressure.",
        (scaled("float_bowl.fuel_pressure", 0.02),),
    ),
    Fault(
        "float-set-high",
        "float",
        "The float's tang is bent so that the needle shuts too late: at worst by a third of "
        "the setting.",
        (scaled("float_bowl.float_setting", 2 / 3),),
    ),
    Fault(
        "float-set-low",
        "float",
        "The float's tang is bent so that the needle shuts too soon: at worst by a third of "
        "the setting.",
        (scaled("float_bowl.float_setting", 4 / 3),),
    ),
)
"""Float, needle, strainer, pump and setting (sizes: common practice, no source)."""

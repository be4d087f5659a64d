"""The float circuit: what the bowl's level does when the engine, the pump or a part changes.

The dimensions and moments are in `float_lever`, the balance at one instant in
`float_balance`, the level in time in `bowl_filling`; their public names are repeated here.
"""

from math import asin, inf

from fuelcircuits.errors import between
from fuelcircuits.physics.circuits import needle_valve
from fuelcircuits.physics.circuits.bowl_filling import Filling, fill
from fuelcircuits.physics.circuits.float_balance import (
    WARM,
    at_drop,
    at_level,
    held_at,
)
from fuelcircuits.physics.circuits.float_lever import (
    FloatBowl,
    FloatState,
    float_volume,
    flow_per_area,
    open_area_at,
    stop_angle,
    supply_to,
)
from fuelcircuits.physics.matter.fuel import Fuel

__all__ = [
    "Filling",
    "FloatBowl",
    "FloatState",
    "at_drop",
    "fill",
    "float_volume",
    "inlet_capacity",
    "starvation_demand",
    "steady",
]


def inlet_capacity(
    bowl: FloatBowl,
    fuel: Fuel,
    supply_gauge: float | None = None,
    *,
    temperature: float = WARM,
    bowl_gauge: float = 0.0,
) -> float:
    """Return the most that the inlet passes, with the float on its drop stop [kg/s], signed.

    The arguments are those of `at_drop`.
    """
    supply = supply_to(bowl, fuel, supply_gauge, temperature, bowl_gauge)
    return open_area_at(bowl, stop_angle(bowl)) * flow_per_area(bowl, supply)


def starvation_demand(
    bowl: FloatBowl,
    fuel: Fuel,
    supply_gauge: float | None = None,
    *,
    temperature: float = WARM,
    bowl_gauge: float = 0.0,
) -> float:
    """Return the demand above which the bowl runs empty [kg/s]; never negative.

    It is the inlet's capacity with the float on its drop stop. The arguments are those of
    `at_drop`.
    """
    capacity = inlet_capacity(
        bowl, fuel, supply_gauge, temperature=temperature, bowl_gauge=bowl_gauge
    )
    return max(capacity, 0.0)


def steady(
    bowl: FloatBowl,
    fuel: Fuel,
    demand: float,
    supply_gauge: float | None = None,
    *,
    temperature: float = WARM,
    bowl_gauge: float = 0.0,
) -> FloatState:
    """Return where level and float settle while the engine draws a steady flow.

    The demand fixes the area the needle has to leave open, the area the drop, and the drop
    the level. Where the demand exceeds the inlet's capacity the bowl is empty (`starved`, level
    nought, and the inlet flow is all the engine gets); where the float cannot hold the inlet
    down to the demand, or the seat leaks more than that, the bowl is full to the brim
    (`flooded`, and what the inlet passes beyond the demand runs over).

    Parameters
    ----------
    bowl, fuel
        The rig's section, and what is in it.
    demand
        Fuel drawn from the bowl [kg/s], not negative.
    supply_gauge, temperature, bowl_gauge
        As in `at_drop`.

    Returns
    -------
    FloatState
        Level, float and inlet once they have settled.

    Raises
    ------
    RangeError
        If an argument is outside its range.

    Notes
    -----
    First principles.
    """
    between("demand", demand, 0, inf, "kg/s")
    supply = supply_to(bowl, fuel, supply_gauge, temperature, bowl_gauge)
    flux, widest = flow_per_area(bowl, supply), open_area_at(bowl, stop_angle(bowl))
    if demand > widest * flux:
        return at_level(bowl, supply, 0.0)._replace(starved=True)
    needed = demand / max(flux, 1e-12) - bowl.seat_leak
    if needed >= 0.0:
        used = min(needed, widest - bowl.seat_leak)
        lift = needle_valve.lift_for(used, bowl.seat_bore, bowl.needle_taper)
        held = held_at(bowl, supply, asin(lift / bowl.needle_arm))
        if not held.flooded:
            return held
    return at_level(bowl, supply, bowl.depth)._replace(flooded=True)

"""The float circuit: what the bowl's level does when the engine, the pump or a part changes.

The dimensions and moments are in `float_lever`, the balance at one instant in
`float_balance`, the level in time in `bowl_filling`; their public names are repeated here.
"""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from fuelcircuits.errors import between
from fuelcircuits.physics.circuits import needle_valve
from fuelcircuits.physics.circuits.bowl_filling import Filling, fill
from fuelcircuits.physics.circuits.float_balance import WARM, at_drop, at_level, held_at
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
    "at_level",
    "fill",
    "float_volume",
    "inlet_capacity",
    "level_shift",
    "starvation_demand",
    "steady",
]

Floats = NDArray[np.float64]


def inlet_capacity(
    bowl: FloatBowl,
    fuel: Fuel,
    supply_gauge: ArrayLike | None = None,
    *,
    temperature: ArrayLike = WARM,
    bowl_gauge: ArrayLike = 0.0,
) -> Floats:
    """Return the most that the inlet passes, with the float on its drop stop [kg/s], signed.

    The arguments are those of `at_level`.
    """
    supply = supply_to(bowl, fuel, supply_gauge, temperature, bowl_gauge)
    return np.asarray(open_area_at(bowl, stop_angle(bowl)) * flow_per_area(bowl, supply))


def starvation_demand(
    bowl: FloatBowl,
    fuel: Fuel,
    supply_gauge: ArrayLike | None = None,
    *,
    temperature: ArrayLike = WARM,
    bowl_gauge: ArrayLike = 0.0,
) -> Floats:
    """Return the demand above which the bowl runs empty [kg/s]; never negative.

    It is the inlet's capacity with the float on its drop stop. The arguments are those of
    `at_level`.
    """
    return np.maximum(
        inlet_capacity(bowl, fuel, supply_gauge, temperature=temperature, bowl_gauge=bowl_gauge), 0
    )


def steady(
    bowl: FloatBowl,
    fuel: Fuel,
    demand: ArrayLike,
    supply_gauge: ArrayLike | None = None,
    *,
    temperature: ArrayLike = WARM,
    bowl_gauge: ArrayLike = 0.0,
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
        As in `at_level`.

    Returns
    -------
    FloatState
        Arrays, broadcast from all arguments.

    Raises
    ------
    RangeError
        If an argument is outside its range.

    Notes
    -----
    First principles.
    """
    wanted = np.asarray(between("demand", demand, 0, np.inf, "kg/s"), dtype=float)
    supply = supply_to(bowl, fuel, supply_gauge, temperature, bowl_gauge)
    starved = wanted > inlet_capacity(
        bowl, fuel, supply_gauge, temperature=temperature, bowl_gauge=bowl_gauge
    )
    needed = wanted / np.maximum(flow_per_area(bowl, supply), 1e-12) - bowl.seat_leak
    used = np.clip(needed, 0, open_area_at(bowl, stop_angle(bowl)) - bowl.seat_leak)
    lift = needle_valve.lift_for(used, bowl.seat_bore, bowl.needle_taper)
    held = held_at(bowl, supply, np.arcsin(lift / bowl.needle_arm))
    flooded = ~starved & (held.flooded | (needed < 0))
    out = starved | flooded
    if not np.any(out):
        return held
    level = np.where(starved, 0.0, np.where(flooded, bowl.depth, held.level))
    edge = at_level(bowl, fuel, level, supply_gauge, temperature=temperature, bowl_gauge=bowl_gauge)
    settled = [np.where(out, new, old) for new, old in zip(edge, held, strict=True)]
    flags = (np.broadcast_to(flag, settled[0].shape) for flag in (starved, flooded))
    return FloatState(*settled[:-2], *flags)


def level_shift(
    bowl: FloatBowl,
    fuel: Fuel,
    demand: ArrayLike = 0.0,
    supply_gauge: ArrayLike | None = None,
    *,
    changed_bowl: FloatBowl | None = None,
    changed_fuel: Fuel | None = None,
    changed_supply_gauge: ArrayLike | None = None,
    temperature: ArrayLike = WARM,
    bowl_gauge: ArrayLike = 0.0,
) -> Floats:
    """Return how far the steady level rises when bowl, fuel or pump pressure changes [m].

    Parameters
    ----------
    bowl, fuel, demand, supply_gauge, temperature, bowl_gauge
        As in `steady`, before the change.
    changed_bowl
        The bowl after it: another seat bore, a soaked float, another setting.
    changed_fuel
        The fuel after it.
    changed_supply_gauge
        The pump pressure after it [Pa], gauge.

    Returns
    -------
    numpy.ndarray
        Level after less level before [m]; positive is richer.

    Raises
    ------
    RangeError
        If an argument is outside its range.

    Notes
    -----
    First principles.
    """
    before = steady(
        bowl, fuel, demand, supply_gauge, temperature=temperature, bowl_gauge=bowl_gauge
    )
    after = steady(
        bowl if changed_bowl is None else changed_bowl,
        fuel if changed_fuel is None else changed_fuel,
        demand,
        supply_gauge if changed_supply_gauge is None else changed_supply_gauge,
        temperature=temperature,
        bowl_gauge=bowl_gauge,
    )
    return np.asarray(after.level - before.level)

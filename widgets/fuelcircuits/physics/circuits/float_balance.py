"""Where the float rides: the drop that balances a level, and the level that balances a drop."""

from math import asin, sin

from fuelcircuits.errors import between
from fuelcircuits.physics.circuits.float_lever import (
    FloatBowl,
    FloatState,
    Supply,
    closing_moment,
    lifting_moment,
    opening_moment,
    state_at,
    stop_angle,
    supply_to,
)
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.numerics.root import root

__all__ = ["WARM", "angle_at", "at_drop", "at_level", "held_at"]

WARM = 288.15
"""Temperature of the fuel unless given [K], 15 degC."""


def at_level(bowl: FloatBowl, supply: Supply, level: float) -> FloatState:
    """Return where the float rides when the fuel stands at a given level.

    The closing moment left over rises with the drop, for a float that sinks is pushed up more
    and the fuel pushes less on an open needle; so there is one drop at which nothing is left
    over, or the float rests on the seat (too much) or on the drop stop (too little).

    Parameters
    ----------
    bowl, supply
        The rig's section, and the fuel before its inlet.
    level
        Fuel surface above the bowl's floor [m], from nought to the bowl's depth.

    Returns
    -------
    FloatState
        Float, needle and inlet at that level.

    Raises
    ------
    RangeError
        If the level is outside the bowl.

    Notes
    -----
    First principles.
    """
    between("level above floor", level, 0, bowl.depth, "m")
    return state_at(bowl, supply, level, angle_at(bowl, supply, level))


def angle_at(bowl: FloatBowl, supply: Supply, level: float) -> float:
    """Return the lever angle that balances a level [rad], on the seat or stop if need be."""
    stop = stop_angle(bowl)

    def left(angle: float) -> float:
        return closing_moment(bowl, supply, level, angle)

    if left(stop) <= 0.0:
        return stop
    if left(0.0) >= 0.0:
        return 0.0
    return root(left, 0.0, stop, name="lever angle")


def at_drop(
    bowl: FloatBowl,
    fuel: Fuel,
    drop: float,
    supply_gauge: float | None = None,
    *,
    temperature: float = WARM,
    bowl_gauge: float = 0.0,
) -> FloatState:
    """Return the inlet flow with the float a given way down, and the level that holds it there.

    Where no level in the bowl can hold the float so, because needle and weight ask for more
    than the whole float lifts, the level is the brim and `flooded` is set; what is missing
    stands in `residual`.

    Parameters
    ----------
    bowl, fuel
        The rig's section, and what is in it.
    drop
        Float's centre below its shut position [m], from nought to stop or floor.
    supply_gauge
        Pump pressure at the inlet [Pa], gauge; the card's if not given.
    temperature
        Temperature of the fuel [K].
    bowl_gauge
        Pressure in the bowl [Pa], gauge.

    Returns
    -------
    FloatState
        Float, needle and inlet with the float there.

    Raises
    ------
    RangeError
        If the drop is beyond the most or another argument outside its range.

    Notes
    -----
    First principles.
    """
    sine = drop / bowl.float_arm
    between("float drop over the most", sine / sin(stop_angle(bowl)), 0, 1 + 1e-12)
    supply = supply_to(bowl, fuel, supply_gauge, temperature, bowl_gauge)
    return held_at(bowl, supply, asin(sine))


def held_at(bowl: FloatBowl, supply: Supply, angle: float) -> FloatState:
    """Return the state at a lever angle with the level that holds it there, or the brim."""
    opening = opening_moment(bowl, supply, angle)

    def left(level: float) -> float:
        return lifting_moment(bowl, supply, level, angle) - opening

    if left(bowl.depth) < 0.0:
        return state_at(bowl, supply, bowl.depth, angle)._replace(flooded=True)
    level = 0.0 if left(0.0) >= 0.0 else root(left, 0.0, bowl.depth, name="level")
    return state_at(bowl, supply, level, angle)

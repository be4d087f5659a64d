"""How much of a warming engine's fuel is vapour when it reaches the cylinders."""

from fuelcircuits.physics.matter.evaporation import evaporated_share
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig

__all__ = ["burnable_share", "vapour_share"]

COLD, WARM = 233.15, 363.15
"""Coolant temperatures at which none and all of the liquid still burns [K]."""
HOT_SPOT = 3.0
"""How much faster the floor of the manifold warms than the coolant [1] (judged)."""
MILD = 75.0
"""How much colder than a warm engine the air is for which a card states the heating [K]."""


def vapour_share(
    rig: Rig,
    fuel: Fuel,
    ratio: float,
    manifold: float,
    *,
    coolant: float,
    outside: float,
) -> float:
    r"""Return the share of the fuel that is vapour at the cylinders.

    .. math::
        T = T_0 + \Delta T \frac{T_b - T_0}{75\,\mathrm K} \left[1 - (1 - w)^3\right],
        \qquad w = \frac{T_c - T_0}{T_b - T_0}

    is the temperature of the charge. The floor of the manifold warms it, the more the colder
    the air is; exhaust heats that floor, so that it is warm in a third of the time of the
    coolant.

    Parameters
    ----------
    rig
        For the heating of the charge by a warm engine and the temperature of a warm block.
    fuel
        What is burnt.
    ratio
        Air-fuel ratio [1]; beyond 0.05 to 200 taken as the nearer of the two.
    manifold
        Absolute pressure in the manifold [Pa].
    coolant
        Temperature of the coolant [K].
    outside
        Temperature of the air outside [K].

    Returns
    -------
    Share of the fuel's mass [1].

    Raises
    ------
    RangeError
        As `evaporated_share` does.

    Notes
    -----
    That exhaust is led under the floor of the manifold so that a cold engine evaporates its
    fuel sooner is common practice, no source. How much sooner is judged: with a floor no
    faster than the coolant, engines that run well at 15 degC starved at -10 degC, whatever the
    choke. Heat goes with the difference of temperatures (first principles); the card states the
    heating for a mild day, 75 K below a warm engine. An engine that has cooled down half way
    comes out a little too warm.
    """
    missing = rig.hot_soak.block_temperature - outside
    warmth = min(max((coolant - outside) / missing, 0.0), 1.0) if missing > 0.0 else 1.0
    heated = 1.0 - (1.0 - warmth) ** HOT_SPOT
    charge = outside + rig.engine.charge_heating * heated * missing / MILD
    return evaporated_share(fuel, charge, manifold, min(max(ratio, 0.05), 200.0))


def burnable_share(
    rig: Rig,
    fuel: Fuel,
    ratio: float,
    manifold: float,
    *,
    coolant: float,
    outside: float,
) -> float:
    r"""Return the share of the fuel that burns in time.

    .. math:: s + (1 - s) \left(\frac{T_c - T_1}{T_2 - T_1}\right)^2

    What is still liquid when it reaches the cylinders evaporates there before the fire comes:
    all of it from a warm wall, none from one at -40 degC.

    Parameters
    ----------
    rig, fuel, ratio, manifold, coolant, outside
        As in `vapour_share`, which is s.

    Returns
    -------
    Share of the fuel's mass [1].

    Notes
    -----
    Judged, no source: a warm engine burns all of its fuel, and one at 20 degC not much more
    than what is vapour.
    """
    warmth = min(max((coolant - COLD) / (WARM - COLD), 0.0), 1.0)
    if warmth == 1.0:
        return 1.0
    vapour = vapour_share(rig, fuel, ratio, manifold, coolant=coolant, outside=outside)
    return vapour + (1.0 - vapour) * warmth**2

"""How much of a warming engine's fuel is vapour when it reaches the cylinders."""

from fuelcircuits.physics.matter.evaporation import evaporated_share
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig

__all__ = ["vapour_share"]


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

    .. math:: T = T_0 + \Delta T \frac{T_c - T_0}{T_b - T_0}

    is the temperature of the charge: it is warmed by the more, the warmer the coolant.

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

    References
    ----------
    Common practice, no source.
    """
    warmth = (coolant - outside) / (rig.hot_soak.block_temperature - outside)
    charge = outside + rig.engine.charge_heating * warmth
    return evaporated_share(fuel, charge, manifold, min(max(ratio, 0.05), 200.0))

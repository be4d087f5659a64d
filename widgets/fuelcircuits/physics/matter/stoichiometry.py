"""What a fuel is made of, the air that burns it, and the heat that evaporates it."""

from typing import NamedTuple

from fuelcircuits.physics.matter.blend import Fuel, Mix, mass_shares
from fuelcircuits.physics.numerics.linear import dot

__all__ = [
    "CARBON_MASS",
    "HYDROGEN_MASS",
    "NITROGEN_MASS",
    "NITROGEN_TO_OXYGEN",
    "OXYGEN_MASS",
    "Composition",
    "composition",
    "heat_of_vaporisation",
    "stoichiometric_ratio",
    "stoichiometric_ratio_of",
]

HYDROGEN = Mix(1.87, 3.0)
"""Hydrogen atoms for each carbon atom [1]; Heywood 1988, table D.4."""
OXYGEN = Mix(0.0, 0.5)
"""Oxygen atoms for each carbon atom [1]; Heywood 1988, table D.4."""
VAPORISATION = Mix(305e3, 840e3)
"""Heat of vaporisation [J/kg]; Heywood 1988, table D.4 (from memory)."""

CARBON_MASS, HYDROGEN_MASS, OXYGEN_MASS = 12.011, 1.008, 15.999
"""Standard atomic weights [kg/kmol]; IUPAC."""
NITROGEN_TO_OXYGEN, NITROGEN_MASS = 3.773, 28.16
"""Air in two parts, oxygen and "atmospheric nitrogen": moles of the second for one of the first
[1], and its molar mass with the argon in it [kg/kmol]; Heywood 1988, section 3.2."""


class Composition(NamedTuple):
    """What a fuel is made of."""

    hydrogen_per_carbon: float  # atoms for each carbon atom [1]
    oxygen_per_carbon: float  # atoms for each carbon atom [1]
    carbon: float  # share of the mass [1]
    hydrogen: float  # share of the mass [1]
    oxygen: float  # share of the mass [1]


def _by_mass(fuel: Fuel, values: Mix) -> float:
    """Return a property that adds up by mass."""
    return dot(mass_shares(fuel), values)


def composition(fuel: Fuel) -> Composition:
    """Return atom ratios and mass shares of the elements of the fuel.

    Parameters
    ----------
    fuel
        The blend.

    Returns
    -------
    Composition
        Atoms for each carbon atom [1] and shares of the mass [1].

    Notes
    -----
    First principles, from the mass shares of the two parts and standard atomic weights.
    """
    carbons = [
        weight / _mass_per_carbon(hydrogen, oxygen)
        for weight, hydrogen, oxygen in zip(mass_shares(fuel), HYDROGEN, OXYGEN, strict=True)
    ]
    y, z = dot(carbons, HYDROGEN) / sum(carbons), dot(carbons, OXYGEN) / sum(carbons)
    mass = _mass_per_carbon(y, z)
    return Composition(y, z, CARBON_MASS / mass, y * HYDROGEN_MASS / mass, z * OXYGEN_MASS / mass)


def _mass_per_carbon(hydrogen: float, oxygen: float) -> float:
    """Return the mass that goes with one carbon atom [kg/kmol]."""
    return CARBON_MASS + HYDROGEN_MASS * hydrogen + OXYGEN_MASS * oxygen


def stoichiometric_ratio_of(hydrogen: float, oxygen: float = 0.0) -> float:
    r"""Return the mass of air that just burns a unit mass of the fuel CH\ :sub:`y`\ O\ :sub:`z`.

    .. math::
        \frac{m_a}{m_f} = \frac{(1 + y/4 - z/2)(31.998 + 3.773 \times 28.16)}
                               {12.011 + 1.008 y + 15.999 z}

    Parameters
    ----------
    hydrogen
        Hydrogen atoms y for each carbon atom [1].
    oxygen
        Oxygen atoms z for each carbon atom [1].

    Returns
    -------
    Stoichiometric air-fuel ratio by mass [1].

    References
    ----------
    Heywood, Internal Combustion Engine Fundamentals, 1988, eq. 3.6, with oxygen in the fuel.
    """
    oxygens = 1 + hydrogen / 4 - oxygen / 2
    air = 2 * OXYGEN_MASS + NITROGEN_TO_OXYGEN * NITROGEN_MASS
    return oxygens * air / _mass_per_carbon(hydrogen, oxygen)


def stoichiometric_ratio(fuel: Fuel) -> float:
    """Return the mass of air that just burns a unit mass of the blend [1].

    The equation and its source are those of `stoichiometric_ratio_of`; 14.6 for petrol and
    9.0 for ethanol.
    """
    return stoichiometric_ratio_of(*composition(fuel)[:2])


def heat_of_vaporisation(fuel: Fuel) -> float:
    """Return the heat that turns a unit mass of the liquid into vapour [J/kg], by mass shares."""
    return _by_mass(fuel, VAPORISATION)

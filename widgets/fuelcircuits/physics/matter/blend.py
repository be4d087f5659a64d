"""The fuel in the tank: petrol, ethanol, or a blend of the two by volume."""

from dataclasses import dataclass
from typing import NamedTuple

from fuelcircuits.physics.entry import Section, entry

__all__ = ["DENSITY", "Fuel", "Mix", "mass_shares"]


class Mix(NamedTuple):
    """The same property of the two parts of a blend."""

    petrol: float
    ethanol: float


DENSITY = Mix(745.0, 793.5)
"""Density at 15 degC [kg/m3]. Petrol: the middle of EN 228's 720 to 775. Ethanol: CRC Handbook
of Chemistry and Physics, 789.3 at 20 degC (both from memory)."""


@dataclass(frozen=True)
class Fuel(Section):
    """A petrol with some ethanol in it."""

    ethanol: float = entry("1", 0.0, 1.0, "share of ethanol by volume at 15 degC", 0.0)
    reid_vapour_pressure: float = entry(
        "Pa", 30e3, 110e3, "Reid vapour pressure of the blend as it stands", 62e3
    )
    petrol_density: float = entry(
        "kg/m^3", 680.0, 775.0, "density of the petrol part at 15 degC", DENSITY.petrol
    )


def mass_shares(fuel: Fuel) -> Mix:
    r"""Return the shares of petrol and of ethanol in the mass of the blend.

    .. math:: w_e = \frac{v \rho_e}{v \rho_e + (1 - v) \rho_p}

    Parameters
    ----------
    fuel
        The blend; v is its ethanol share by volume [1].

    Returns
    -------
    Mix
        Shares of the mass [1], which add up to 1.

    Notes
    -----
    First principles; volumes are taken to add up at 15 degC, which is true to about 0.2 %.
    """
    ethanol = fuel.ethanol * DENSITY.ethanol
    petrol = (1 - fuel.ethanol) * fuel.petrol_density
    return Mix(petrol / (petrol + ethanol), ethanol / (petrol + ethanol))

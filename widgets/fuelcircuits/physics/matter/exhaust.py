"""What leaves the engine: burnt gas by element balance and the water-gas reaction.

Lambda is the air that went in over the air that would just burn the fuel. The fuel
has y hydrogen and z oxygen atoms for each of carbon; `fuelcircuits.physics.matter.fuel.composition`
gives them for a blend.
"""

from math import sqrt
from typing import NamedTuple

from fuelcircuits.errors import between
from fuelcircuits.physics.matter.fuel import NITROGEN_MASS, NITROGEN_TO_OXYGEN, OXYGEN_MASS

__all__ = [
    "WATER_GAS",
    "Exhaust",
    "dry",
    "oxygen_needed",
    "products",
    "wet",
]

WATER_GAS = 3.5
"""Constant of the water-gas reaction as exhaust shows it, [CO][H2O] over [CO2][H2] [1]: that of
about 1740 K, below which the reaction stops; Spindt 1965 and Heywood 1988, section 4.9.2."""
WATER_MASS = 18.015
"""Molar mass of water [kg/kmol]; IUPAC."""


class Exhaust(NamedTuple):
    """The gases of the exhaust: amounts, or shares by volume, of each."""

    co2: float
    co: float
    o2: float
    h2o: float
    h2: float
    hc: float  # unburnt fuel, counted by its carbon atoms
    n2: float  # nitrogen with the argon of the air


def oxygen_needed(hydrogen: float, oxygen: float = 0.0) -> float:
    r"""Return the oxygen molecules that just burn one carbon atom's worth of fuel.

    .. math:: n = 1 + \frac{y}{4} - \frac{z}{2}

    Parameters
    ----------
    hydrogen, oxygen
        Atoms y and z for each carbon atom [1].

    Returns
    -------
    Molecules of oxygen [1].

    References
    ----------
    First principles: all carbon to carbon dioxide, all hydrogen to water.
    """
    return 1.0 + hydrogen / 4.0 - oxygen / 2.0


def products(
    lambda_: float,
    hydrogen: float,
    oxygen: float = 0.0,
    *,
    water_gas: float = WATER_GAS,
    unburnt: float = 0.0,
    water: float = 0.0,
) -> Exhaust:
    r"""Return the products of one carbon atom's worth of fuel.

    Lean mixtures leave oxygen over and burn all that burns. In rich ones the lack of oxygen
    :math:`D = 2 (b n - \lambda n)` is shared by carbon monoxide and hydrogen,

    .. math::
        [CO] + [H_2] = D, \quad [CO_2] + [CO] = b, \quad [H_2] + [H_2O] = H = b y / 2 + W

    as the water-gas reaction says, which makes

    .. math:: (K - 1) [CO]^2 - \left(K (b + D) + H - D\right) [CO] + K b D = 0

    Parameters
    ----------
    lambda_
        Air over the air needed by all the fuel [1], 0.4 to 20.
    hydrogen, oxygen
        Atoms y and z of the fuel for each carbon atom [1].
    water_gas
        Water-gas constant K [1]; a very large one leaves no hydrogen.
    unburnt
        Share of the fuel that leaves as it came [1], 0 to 0.5; b is the rest.
    water
        Water vapour W that came with the air, by mass of dry air [kg/kg];
        `Weather.water` has it.

    Returns
    -------
    Exhaust
        Molecules of each gas for each carbon atom of the fuel [1].

    Raises
    ------
    RangeError
        If lambda or the unburnt share is out of range.

    References
    ----------
    First principles with Heywood 1988, table 4.3; unburnt fuel and damp air are added here.
    """
    needed = oxygen_needed(hydrogen, oxygen)
    supplied = between("lambda", lambda_, 0.4, 20.0) * needed
    burnt = 1.0 - between("unburnt share", unburnt, 0.0, 0.5)
    air_mass = 2.0 * OXYGEN_MASS + NITROGEN_TO_OXYGEN * NITROGEN_MASS
    damp = water * supplied * air_mass / WATER_MASS
    hydrogens = burnt * hydrogen / 2.0 + damp

    lack = max(2.0 * (burnt * needed - supplied), 0.0)
    middle = water_gas * (burnt + lack) + hydrogens - lack
    product = water_gas * burnt * lack
    co = 2.0 * product / (middle + sqrt(max(middle**2 - 4.0 * (water_gas - 1.0) * product, 0.0)))
    return Exhaust(
        burnt - co,
        co,
        max(supplied - burnt * needed, 0.0),
        hydrogens - lack + co,
        lack - co,
        1.0 - burnt,
        NITROGEN_TO_OXYGEN * supplied,
    )


def wet(amounts: Exhaust) -> Exhaust:
    """Return the shares by volume of the exhaust as it is, its water vapour included [1]."""
    total = sum(amounts)
    return Exhaust._make(each / total for each in amounts)


def dry(amounts: Exhaust) -> Exhaust:
    """Return the shares by volume once the water is condensed, as an analyser reads them [1]."""
    return wet(amounts._replace(h2o=0.0))

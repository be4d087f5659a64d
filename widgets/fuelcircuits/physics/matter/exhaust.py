"""What leaves the engine: burnt gas by element balance and the water-gas reaction.

Lambda is the air that went in over the air that would just burn the fuel. The fuel
has y hydrogen and z oxygen atoms for each of carbon; `fuelcircuits.physics.matter.fuel.composition`
gives them for a blend.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.errors import between
from fuelcircuits.physics.matter.fuel import NITROGEN_MASS, NITROGEN_TO_OXYGEN, OXYGEN_MASS

__all__ = [
    "WATER_GAS",
    "Exhaust",
    "dry",
    "oxygen_needed",
    "products",
    "water_gas_constant",
    "wet",
]

Floats = NDArray[np.float64]
Numbers = float | Floats

WATER_GAS = 3.5
"""Constant of the water-gas reaction as exhaust shows it [1], frozen at about 1740 K; Spindt
1965 and Heywood 1988, section 4.9.2."""
WATER_MASS = 18.015
"""Molar mass of water [kg/kmol]; IUPAC."""


class Exhaust(NamedTuple):
    """The gases of the exhaust: amounts, or shares by volume, of each."""

    co2: Floats
    co: Floats
    o2: Floats
    h2o: Floats
    h2: Floats
    hc: Floats  # unburnt fuel, counted by its carbon atoms
    n2: Floats  # nitrogen with the argon of the air


def oxygen_needed(hydrogen: Numbers, oxygen: Numbers = 0.0) -> Floats:
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
    return np.asarray(1.0 + np.asarray(hydrogen) / 4.0 - np.asarray(oxygen) / 2.0)


def water_gas_constant(temperature: Numbers) -> Floats:
    r"""Return the equilibrium constant of the water-gas reaction.

    .. math::
        \ln K = 2.743 - \frac{1.761}{t} - \frac{1.611}{t^2} + \frac{0.2803}{t^3}, \qquad
        K = \frac{[CO][H_2O]}{[CO_2][H_2]}, \quad t = T / 1000

    Parameters
    ----------
    temperature
        Temperature T at which the reaction stops [K], 400 to 3200.

    Returns
    -------
    K [1].

    Raises
    ------
    RangeError
        If the temperature is outside the range of the fit.

    References
    ----------
    Heywood 1988, eq. 4.61 (a fit to the JANAF tables; from memory).
    """
    kelvin = np.asarray(between("temperature", temperature, 400.0, 3200.0, "K"), dtype=float)
    t = kelvin / 1000.0
    return np.asarray(np.exp(2.743 - 1.761 / t - 1.611 / t**2 + 0.2803 / t**3))


def products(
    lambda_: Numbers,
    hydrogen: Numbers,
    oxygen: Numbers = 0.0,
    *,
    water_gas: Numbers = WATER_GAS,
    unburnt: Numbers = 0.0,
    water: Numbers = 0.0,
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
    supplied = np.asarray(between("lambda", lambda_, 0.4, 20.0), dtype=float) * needed
    burnt = 1.0 - np.asarray(between("unburnt share", unburnt, 0.0, 0.5), dtype=float)
    air_mass = 2.0 * OXYGEN_MASS + NITROGEN_TO_OXYGEN * NITROGEN_MASS
    damp = np.asarray(water) * supplied * air_mass / WATER_MASS
    hydrogens = burnt * np.asarray(hydrogen) / 2.0 + damp

    lack = np.maximum(2.0 * (burnt * needed - supplied), 0.0)
    k = np.asarray(water_gas, dtype=float)
    middle = k * (burnt + lack) + hydrogens - lack
    under = np.maximum(middle**2 - 4.0 * (k - 1.0) * k * burnt * lack, 0.0)
    co = 2.0 * k * burnt * lack / (middle + np.sqrt(under))
    gases = (
        burnt - co,
        co,
        np.maximum(supplied - burnt * needed, 0.0),
        hydrogens - lack + co,
        lack - co,
        1.0 - burnt,
        NITROGEN_TO_OXYGEN * supplied,
    )
    return Exhaust(*(np.array(each) for each in np.broadcast_arrays(*gases)))


def wet(amounts: Exhaust) -> Exhaust:
    """Return the shares by volume of the exhaust as it is, its water vapour included [1]."""
    total = sum(amounts, np.zeros(()))
    return Exhaust(*(each / total for each in amounts))


def dry(amounts: Exhaust) -> Exhaust:
    """Return the shares by volume once the water is condensed, as an analyser reads them [1]."""
    return wet(amounts._replace(h2o=np.zeros_like(amounts.h2o)))

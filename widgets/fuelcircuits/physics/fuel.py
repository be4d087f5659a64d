"""The fuel: petrol, ethanol, and blends of the two by volume.

Petrol is a mixture that differs from filling station to filling station; its numbers here
are those of a middling one. Those of ethanol are a pure substance's.
"""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from fuelcircuits.entry import Section, entry
from fuelcircuits.errors import between, positive

__all__ = [
    "Composition",
    "Fuel",
    "Mix",
    "composition",
    "density",
    "heat_of_vaporisation",
    "lower_heating_value",
    "mass_shares",
    "stoichiometric_ratio",
    "stoichiometric_ratio_of",
    "vapour_pressure",
    "vapour_pressure_constants",
    "viscosity",
]

Floats = NDArray[np.float64]

REFERENCE_TEMPERATURE = 288.15
"""Temperature at which fuel is traded and blended [K]: 15 degC, as in EN 228."""
COLDEST, HOTTEST = 223.15, 363.15
"""Limits of the density and viscosity relations [K]: -50 to +90 degC."""


class Mix(NamedTuple):
    """The same property of the two parts of a blend."""

    petrol: float
    ethanol: float


DENSITY = Mix(745.0, 793.5)
"""Density at 15 degC [kg/m3]. Petrol: the middle of EN 228's 720 to 775. Ethanol: CRC Handbook
of Chemistry and Physics, 789.3 at 20 degC (both from memory)."""
ETHANOL_EXPANSION = 1.08e-3
"""Share of ethanol's density at 15 degC lost a kelvin [1/K]; CRC Handbook (from memory)."""
PETROL_EXPANSION = (346.4228, 0.4388)
"""Constants of petrol's expansion [kg2/(m6 K), kg/(m3 K)]; ASTM D1250, petroleum measurement
tables, for the gasolines (from memory)."""
VISCOSITY = Mix(0.53e-3, 1.19e-3)
"""Dynamic viscosity at 20 degC [Pa s]. Petrol: about 0.7 mm2/s. Ethanol: CRC Handbook (both from
memory)."""
VISCOSITY_SLOPE = Mix(1050.0, 1650.0)
"""Andrade's temperature [K]. Petrol: as octane. Ethanol: CRC Handbook, 1.786 mPa s at 0 and
0.694 mPa s at 50 degC (both from memory)."""
VISCOSITY_TEMPERATURE = 293.15
"""Temperature at which `VISCOSITY` holds [K]."""
HYDROGEN = Mix(1.87, 3.0)
"""Hydrogen atoms for each carbon atom [1]; Heywood 1988, table D.4."""
OXYGEN = Mix(0.0, 0.5)
"""Oxygen atoms for each carbon atom [1]; Heywood 1988, table D.4."""
VAPORISATION = Mix(305e3, 840e3)
"""Heat of vaporisation [J/kg]; Heywood 1988, table D.4 (from memory)."""
HEATING_VALUE = Mix(44.0e6, 26.9e6)
"""Lower heating value [J/kg]; Heywood 1988, table D.4 (from memory)."""

CARBON_MASS, HYDROGEN_MASS, OXYGEN_MASS = 12.011, 1.008, 15.999
"""Standard atomic weights [kg/kmol]; IUPAC."""
NITROGEN_TO_OXYGEN, NITROGEN_MASS = 3.773, 28.16
"""Air in two parts, oxygen and "atmospheric nitrogen": moles of the second for one of the first
[1], and its molar mass with the argon in it [kg/kmol]; Heywood 1988, section 3.2."""

DISTILLATION_SLOPE = 3.0
"""Slope of the distillation curve at 10 % evaporated [degF/vol%]; AP-42 gives 3 for petrol."""
PSI = 6894.757293168
"""One pound-force per square inch [Pa]; NIST SP 811."""


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


class Composition(NamedTuple):
    """What a fuel is made of."""

    hydrogen_per_carbon: Floats  # atoms for each carbon atom [1]
    oxygen_per_carbon: Floats  # atoms for each carbon atom [1]
    carbon: Floats  # share of the mass [1]
    hydrogen: Floats  # share of the mass [1]
    oxygen: Floats  # share of the mass [1]


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
    ethanol = np.asarray(fuel.ethanol) * DENSITY.ethanol
    petrol = (1 - np.asarray(fuel.ethanol)) * np.asarray(fuel.petrol_density)
    return Mix(petrol / (petrol + ethanol), ethanol / (petrol + ethanol))


def _by_mass(fuel: Fuel, values: Mix) -> Floats:
    """Return a property that adds up by mass."""
    share = mass_shares(fuel)
    return np.asarray(share.petrol * values.petrol + share.ethanol * values.ethanol)


def density(fuel: Fuel, temperature: ArrayLike) -> Floats:
    r"""Return the density of the liquid.

    .. math::
        \rho = \sum_i v_i \rho_i \left[1 - \beta_i (T - 288.15)\right], \qquad
        \beta_{petrol} = \frac{346.4228 + 0.4388 \rho_{petrol}}{\rho_{petrol}^2}

    Parameters
    ----------
    fuel
        The blend; v are its shares by volume [1].
    temperature
        Temperature T of the liquid [K], 223 to 363.

    Returns
    -------
    numpy.ndarray
        Density [kg/m3].

    Raises
    ------
    RangeError
        If the temperature is outside the range of the relation.

    References
    ----------
    Linear thermal expansion; the source of each constant stands beside it.
    """
    warmer = np.asarray(between("temperature", temperature, COLDEST, HOTTEST, "K"), dtype=float)
    warmer = warmer - REFERENCE_TEMPERATURE
    cool = np.asarray(fuel.petrol_density, dtype=float)
    petrol = cool - (PETROL_EXPANSION[0] / cool + PETROL_EXPANSION[1]) * warmer
    ethanol = DENSITY.ethanol * (1 - ETHANOL_EXPANSION * warmer)
    return np.asarray(petrol + np.asarray(fuel.ethanol) * (ethanol - petrol))


def viscosity(fuel: Fuel, temperature: ArrayLike) -> Floats:
    r"""Return the dynamic viscosity of the liquid.

    .. math::
        \mu_i = \mu_{i,20} \exp\left[b_i \left(\frac1T - \frac1{293.15}\right)\right], \qquad
        \ln \mu = \sum_i v_i \ln \mu_i

    Parameters
    ----------
    fuel
        The blend; v are its shares by volume [1].
    temperature
        Temperature T of the liquid [K], 223 to 363.

    Returns
    -------
    numpy.ndarray
        Dynamic viscosity [Pa s].

    Raises
    ------
    RangeError
        If the temperature is outside the range of the relation.

    References
    ----------
    E. N. da C. Andrade, Nature 125 (1930), page 309, for the temperature; Arrhenius' mixing
    rule for the blend (an approximation, some 10 % off about half and half); the source of
    each constant stands beside it.
    """
    kelvin = np.asarray(between("temperature", temperature, COLDEST, HOTTEST, "K"), dtype=float)
    colder = 1 / kelvin - 1 / VISCOSITY_TEMPERATURE
    petrol, ethanol = (
        np.log(thick) + slope * colder
        for thick, slope in zip(VISCOSITY, VISCOSITY_SLOPE, strict=True)
    )
    return np.asarray(np.exp(petrol + np.asarray(fuel.ethanol) * (ethanol - petrol)))


def vapour_pressure_constants(
    reid_vapour_pressure: ArrayLike, slope: ArrayLike = DISTILLATION_SLOPE
) -> tuple[Floats, Floats]:
    r"""Return the constants A and B of the vapour pressure equation of a petrol.

    .. math::
        A &= 15.64 - 1.854 \sqrt S - (0.8742 - 0.3280 \sqrt S) \ln R \\
        B &= 8742 - 1042 \sqrt S - (1049 - 179.4 \sqrt S) \ln R

    Parameters
    ----------
    reid_vapour_pressure
        Reid vapour pressure R [Pa]; the equation itself takes it in psi.
    slope
        Slope S of the distillation curve at 10 % evaporated [degF/vol%].

    Returns
    -------
    A, B : numpy.ndarray
        A [1] and B [degR] of ``P = exp(A - B / T)`` with P in psi and T in degrees Rankine.

    Raises
    ------
    RangeError
        If the Reid vapour pressure or the slope is not positive.

    References
    ----------
    US EPA, AP-42, chapter 7.1, figure 7.1-15.
    """
    reid = np.log(np.asarray(positive("Reid vapour pressure", reid_vapour_pressure, "Pa")) / PSI)
    root = np.sqrt(positive("distillation slope", slope, "degF/vol%"))
    a = 15.64 - 1.854 * root - (0.8742 - 0.3280 * root) * reid
    b = 8742 - 1042 * root - (1049 - 179.4 * root) * reid
    return np.asarray(a), np.asarray(b)


def vapour_pressure(fuel: Fuel, temperature: ArrayLike) -> Floats:
    r"""Return the true vapour pressure of the fuel.

    .. math:: P = \exp\left(A - \frac{B}{T}\right)

    Parameters
    ----------
    fuel
        The blend; its Reid vapour pressure is that of the blend, ethanol included.
    temperature
        Temperature T of the liquid [K], 223 to 363.

    Returns
    -------
    numpy.ndarray
        Vapour pressure [Pa], absolute.

    Raises
    ------
    RangeError
        If the temperature is outside the range of the relation.

    Notes
    -----
    The equation was made for petrol between about 0 and 40 degC. Outside, and above a tenth
    of ethanol, take the trend and not the number.

    References
    ----------
    US EPA, AP-42, chapter 7.1, figures 7.1-14 and 7.1-15, with S = 3.
    """
    kelvin = np.asarray(between("temperature", temperature, COLDEST, HOTTEST, "K"), dtype=float)
    a, b = vapour_pressure_constants(fuel.reid_vapour_pressure)
    return np.asarray(PSI * np.exp(a - b / (1.8 * kelvin)))


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
    share, carbons = mass_shares(fuel), []
    for weight, hydrogen, oxygen in zip(share, HYDROGEN, OXYGEN, strict=True):
        carbons.append(weight / _mass_per_carbon(hydrogen, oxygen))
    total = carbons[0] + carbons[1]
    y = np.asarray((carbons[0] * HYDROGEN.petrol + carbons[1] * HYDROGEN.ethanol) / total)
    z = np.asarray((carbons[0] * OXYGEN.petrol + carbons[1] * OXYGEN.ethanol) / total)
    mass = _mass_per_carbon(y, z)
    return Composition(
        y, z, CARBON_MASS / mass, y * HYDROGEN_MASS / mass, np.asarray(z * OXYGEN_MASS / mass)
    )


def _mass_per_carbon(hydrogen: ArrayLike, oxygen: ArrayLike) -> Floats:
    """Return the mass that goes with one carbon atom [kg/kmol]."""
    return np.asarray(
        CARBON_MASS + HYDROGEN_MASS * np.asarray(hydrogen) + OXYGEN_MASS * np.asarray(oxygen)
    )


def stoichiometric_ratio_of(hydrogen: ArrayLike, oxygen: ArrayLike = 0.0) -> Floats:
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
    numpy.ndarray
        Stoichiometric air-fuel ratio by mass [1].

    References
    ----------
    Heywood, Internal Combustion Engine Fundamentals, 1988, eq. 3.6, with oxygen in the fuel.
    """
    oxygens = 1 + np.asarray(hydrogen) / 4 - np.asarray(oxygen) / 2
    air = 2 * OXYGEN_MASS + NITROGEN_TO_OXYGEN * NITROGEN_MASS
    return np.asarray(oxygens * air / _mass_per_carbon(hydrogen, oxygen))


def stoichiometric_ratio(fuel: Fuel) -> Floats:
    """Return the mass of air that just burns a unit mass of the blend [1].

    The equation and its source are those of `stoichiometric_ratio_of`; 14.6 for petrol and
    9.0 for ethanol.
    """
    return stoichiometric_ratio_of(*composition(fuel)[:2])


def heat_of_vaporisation(fuel: Fuel) -> Floats:
    """Return the heat that turns a unit mass of the liquid into vapour [J/kg], by mass shares."""
    return _by_mass(fuel, VAPORISATION)


def lower_heating_value(fuel: Fuel) -> Floats:
    """Return the heat of burning a unit mass, with the water left as vapour [J/kg]."""
    return _by_mass(fuel, HEATING_VALUE)

"""The fuel: density, viscosity and vapour pressure of petrol, ethanol, and their blends.

Petrol is a mixture that differs from filling station to filling station; its numbers here
are those of a middling one. Those of ethanol are a pure substance's. What a fuel is made of is in
`blend` and `stoichiometry`; their public names are repeated here.
"""

from math import exp, log, sqrt

from fuelcircuits.errors import between, positive
from fuelcircuits.physics.matter.blend import DENSITY, Fuel, Mix, mass_shares
from fuelcircuits.physics.matter.stoichiometry import (
    NITROGEN_MASS,
    NITROGEN_TO_OXYGEN,
    OXYGEN_MASS,
    Composition,
    composition,
    heat_of_vaporisation,
    stoichiometric_ratio,
    stoichiometric_ratio_of,
)

__all__ = [
    "NITROGEN_MASS",
    "NITROGEN_TO_OXYGEN",
    "OXYGEN_MASS",
    "Composition",
    "Fuel",
    "Mix",
    "composition",
    "density",
    "heat_of_vaporisation",
    "mass_shares",
    "stoichiometric_ratio",
    "stoichiometric_ratio_of",
    "vapour_pressure",
    "vapour_pressure_constants",
    "viscosity",
]

REFERENCE_TEMPERATURE = 288.15
"""Temperature at which fuel is traded and blended [K]: 15 degC, as in EN 228."""
COLDEST, HOTTEST = 223.15, 363.15
"""Limits of the density and viscosity relations [K]: -50 to +90 degC."""

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
DISTILLATION_SLOPE = 3.0
"""Slope of the distillation curve at 10 % evaporated [degF/vol%]; AP-42 gives 3 for petrol."""
PSI = 6894.757293168
"""One pound-force per square inch [Pa]; NIST SP 811."""


def density(fuel: Fuel, temperature: float) -> float:
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
    Density [kg/m3].

    Raises
    ------
    RangeError
        If the temperature is outside the range of the relation.

    References
    ----------
    Linear thermal expansion; the source of each constant stands beside it.
    """
    warmer = between("temperature", temperature, COLDEST, HOTTEST, "K") - REFERENCE_TEMPERATURE
    cool = fuel.petrol_density
    petrol = cool - (PETROL_EXPANSION[0] / cool + PETROL_EXPANSION[1]) * warmer
    ethanol = DENSITY.ethanol * (1 - ETHANOL_EXPANSION * warmer)
    return petrol + fuel.ethanol * (ethanol - petrol)


def viscosity(fuel: Fuel, temperature: float) -> float:
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
    kelvin = between("temperature", temperature, COLDEST, HOTTEST, "K")
    colder = 1 / kelvin - 1 / VISCOSITY_TEMPERATURE
    petrol, ethanol = (
        log(thick) + slope * colder for thick, slope in zip(VISCOSITY, VISCOSITY_SLOPE, strict=True)
    )
    return exp(petrol + fuel.ethanol * (ethanol - petrol))


def vapour_pressure_constants(
    reid_vapour_pressure: float, slope: float = DISTILLATION_SLOPE
) -> tuple[float, float]:
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
    A, B
        A [1] and B [degR] of ``P = exp(A - B / T)`` with P in psi and T in degrees Rankine.

    Raises
    ------
    RangeError
        If the Reid vapour pressure or the slope is not positive.

    References
    ----------
    US EPA, AP-42, chapter 7.1, figure 7.1-15.
    """
    reid = log(positive("Reid vapour pressure", reid_vapour_pressure, "Pa") / PSI)
    root = sqrt(positive("distillation slope", slope, "degF/vol%"))
    a = 15.64 - 1.854 * root - (0.8742 - 0.3280 * root) * reid
    b = 8742 - 1042 * root - (1049 - 179.4 * root) * reid
    return a, b


def vapour_pressure(fuel: Fuel, temperature: float) -> float:
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
    kelvin = between("temperature", temperature, COLDEST, HOTTEST, "K")
    a, b = vapour_pressure_constants(fuel.reid_vapour_pressure)
    return PSI * exp(a - b / (1.8 * kelvin))

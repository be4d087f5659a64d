"""How much of the fuel has evaporated by the time it burns: the mixture a cold engine gets.

Petrol is taken as a dozen liquids of rising boiling point. Air carries off of each as much
as its vapour pressure allows; what stays liquid does not burn in time. The mixture delivered
and the mixture that burns are therefore two things in a cold engine.
"""

from functools import lru_cache
from math import exp, log
from operator import truediv
from typing import NamedTuple

from fuelcircuits.errors import between, positive
from fuelcircuits.physics.matter.fuel import Fuel, vapour_pressure
from fuelcircuits.physics.numerics.interpolation import interpolate
from fuelcircuits.physics.numerics.linear import dot
from fuelcircuits.physics.numerics.root import root

__all__ = [
    "Slices",
    "evaporated_share",
    "saturation_pressure",
    "slices",
]

RECOVERED = (0.0, 0.1, 0.5, 0.9, 1.0)
DISTILLED = (302.65, 326.15, 374.65, 429.15, 483.15)
"""Distillation of a petrol by ASTM D86: share recovered [1] against temperature [K]. The middle
of each range in 40 CFR 1065.710, table 1 (general testing); the end point allows at most 486 K."""
TRUE_FACTOR = (0.9177, 0.5564, 0.9013, 0.9552, 0.9552)
TRUE_POWER = (1.0019, 1.0900, 1.0176, 1.0110, 1.0110)
"""True boiling point from D86: T = a T86^b, in kelvin (Riazi and Daubert 1986, from memory; the
end point takes the row of 90 %)."""
COUNT = 12
"""Liquids the petrol is cut into [1]; twice as many change the share by 0.013 at most."""
WATSON = 11.9
"""Watson's characterisation factor of petrol [K^(1/3)] (common practice, no source)."""
ATMOSPHERE, REID_TEMPERATURE = 101_325.0, 310.93
"""Standard atmosphere [Pa]; temperature of the Reid test, 100 degF [K]."""
AIR_MASS = 28.96
"""Molar mass of air [kg/kmol]."""
FINE = 1e-11
"""How closely the logarithm of the phases' ratio is found [1]."""


class Slices(NamedTuple):
    """The liquids that stand for a petrol, lightest first."""

    boiling_point: list[float]  # K
    molar_mass: list[float]  # kg/kmol
    mass_share: list[float]  # 1, adds up to 1
    moles: list[float]  # kmol in a kilogram of fuel


def saturation_pressure(boiling_point: float, temperature: float) -> float:
    r"""Return the vapour pressure of a hydrocarbon of known boiling point.

    .. math::
        \ln\frac{p}{p_0} = \frac{\ln(82.06\, T_b)}{0.97} \left[1 - \frac{a^m}{T_r}
        - 2 m a^{m-1} \ln T_r\right], \quad a = 3 - 2 T_r,\; T_r = \frac{T}{T_b},\; m = 0.19

    Parameters
    ----------
    boiling_point
        Boiling point at one atmosphere [K].
    temperature
        Temperature [K]; up to 1.3 of the boiling point, held there above.

    Returns
    -------
    Vapour pressure [Pa].

    References
    ----------
    Grain's form of Watson's relation: Lyman, Reehl and Rosenblatt, Handbook of Chemical
    Property Estimation Methods, 1982, chapter 14 (from memory).
    """
    reduced = min(temperature / boiling_point, 1.3)
    a, m = 3 - 2 * reduced, 0.19
    bracket = 1 - a**m / reduced - 2 * m * a ** (m - 1) * log(reduced)
    return ATMOSPHERE * exp(log(82.06 * boiling_point) / 0.97 * bracket)


@lru_cache(maxsize=64)
def slices(fuel: Fuel, count: int = COUNT) -> Slices:
    r"""Return the liquids that stand for a petrol.

    Equal volumes are cut from the distillation curve. All boiling points are then moved by
    one factor so that the whole has the vapour pressure of the fuel at 100 degF. Density and
    molar mass of each follow from its boiling point:

    .. math::
        s = \frac{(1.8 T_b)^{1/3}}{K_w}, \qquad
        M = 42.965\, e^{2.097 \cdot 10^{-4} T_b - 7.78712 s + 2.08476 \cdot 10^{-3} T_b s}\,
            T_b^{1.26007} s^{4.98308}

    Parameters
    ----------
    fuel
        The fuel; its ethanol is taken as petrol of the blend's vapour pressure, so trust
        the result up to about a tenth.
    count
        Liquids to cut it into [1].

    Returns
    -------
    Slices
        Boiling points [K], molar masses [kg/kmol], shares of the mass [1], amounts [kmol/kg].

    References
    ----------
    Riazi and Daubert, Ind. Eng. Chem. Research 26 (1987), page 755, for M (from memory).
    """
    true = [
        factor * kelvin**power
        for factor, kelvin, power in zip(TRUE_FACTOR, DISTILLED, TRUE_POWER, strict=True)
    ]
    curve = [interpolate((i + 0.5) / count, RECOVERED, true) for i in range(count)]
    wanted = vapour_pressure(fuel, REID_TEMPERATURE)

    def surplus(factor: float) -> float:
        cut = _cut(curve, factor)
        pressures = [saturation_pressure(each, REID_TEMPERATURE) for each in cut.boiling_point]
        return dot(cut.moles, pressures) / sum(cut.moles) - wanted

    return _cut(curve, root(surplus, 0.8, 1.25, name="boiling-point factor"))


def _cut(curve: list[float], factor: float) -> Slices:
    """Return equal volumes of the liquids with these boiling points, moved by a factor."""
    boiling = [factor * each for each in curve]
    gravity = [(1.8 * each) ** (1 / 3) / WATSON for each in boiling]
    molar = [_molar_mass(each, dense) for each, dense in zip(boiling, gravity, strict=True)]
    share = [each / sum(gravity) for each in gravity]
    return Slices(
        boiling, molar, share, [part / mass for part, mass in zip(share, molar, strict=True)]
    )


def _molar_mass(boiling: float, gravity: float) -> float:
    """Return M of `slices` [kg/kmol]."""
    power = 2.097e-4 * boiling - 7.78712 * gravity + 2.08476e-3 * boiling * gravity
    mass: float = 42.965 * exp(power) * boiling**1.26007 * gravity**4.98308
    return mass


def evaporated_share(fuel: Fuel, temperature: float, pressure: float, ratio: float) -> float:
    r"""Return the share of the fuel's mass that is vapour once air and fuel are in equilibrium.

    .. math::
        v_i = n_i \frac{K_i r}{1 + K_i r}, \quad K_i = \frac{p_i}{p}, \quad
        r \sum_i \frac{n_i}{1 + K_i r} = n_{air} + \sum_i v_i

    with r the vapour phase's amount over the liquid's, air included.

    Parameters
    ----------
    fuel
        The fuel.
    temperature
        Temperature of the mixture [K], 230 to 420.
    pressure
        Pressure of the mixture [Pa], absolute.
    ratio
        Air-fuel ratio delivered, by mass [1].

    Returns
    -------
    Share [1], 0 to 1.

    Raises
    ------
    RangeError
        If the temperature is outside the relation, or pressure or ratio is not positive.

    Notes
    -----
    First principles: Raoult's law for each liquid, Dalton's for the gas. An engine gives the
    fuel little time, so the true share is lower; the trend is right.
    """
    between("temperature", temperature, 230, 420, "K")
    positive("pressure", pressure, "Pa")
    air = positive("air-fuel ratio", ratio) / AIR_MASS
    cut = slices(fuel)
    volatile = [saturation_pressure(each, temperature) / pressure for each in cut.boiling_point]
    spare = [moles * (1 - k) for moles, k in zip(cut.moles, volatile, strict=True)]
    if sum(map(truediv, spare, volatile)) <= air:
        return 1.0

    def surplus(logarithm: float) -> float:
        phases = exp(logarithm)
        held = [1 + k * phases for k in volatile]
        carried: float = sum(map(truediv, spare, held))
        return phases * carried - air

    phases = exp(root(surplus, -12.0, log(1e9), name="vapour share", tolerance=FINE))
    return sum(
        share * k * phases / (1 + k * phases)
        for share, k in zip(cut.mass_share, volatile, strict=True)
    )

"""How much of the fuel has evaporated by the time it burns: the mixture a cold engine gets.

Petrol is taken as a dozen liquids of rising boiling point. Air carries off of each as much
as its vapour pressure allows; what stays liquid does not burn in time. The mixture delivered
and the mixture that burns (here: effective) are therefore two things in a cold engine.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from fuelcircuits.errors import between, positive
from fuelcircuits.physics.matter.fuel import Fuel, vapour_pressure
from fuelcircuits.physics.numerics.root import root

__all__ = [
    "Slices",
    "delivered_ratio",
    "effective_ratio",
    "evaporated_share",
    "saturation_pressure",
    "slices",
]

Floats = NDArray[np.float64]

RECOVERED = np.array([0.0, 0.1, 0.5, 0.9, 1.0])
DISTILLED = np.array([302.65, 326.15, 374.65, 429.15, 483.15])
"""Distillation of a petrol by ASTM D86: share recovered [1] against temperature [K]. The middle
of each range in 40 CFR 1065.710, table 1 (general testing); the end point allows at most 486 K."""
TRUE_FACTOR = np.array([0.9177, 0.5564, 0.9013, 0.9552, 0.9552])
TRUE_POWER = np.array([1.0019, 1.0900, 1.0176, 1.0110, 1.0110])
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


class Slices(NamedTuple):
    """The liquids that stand for a petrol, lightest first."""

    boiling_point: Floats  # K
    molar_mass: Floats  # kg/kmol
    mass_share: Floats  # 1, adds up to 1
    moles: Floats  # kmol in a kilogram of fuel


def saturation_pressure(boiling_point: ArrayLike, temperature: ArrayLike) -> Floats:
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
    numpy.ndarray
        Vapour pressure [Pa].

    References
    ----------
    Grain's form of Watson's relation: Lyman, Reehl and Rosenblatt, Handbook of Chemical
    Property Estimation Methods, 1982, chapter 14 (from memory).
    """
    boiling = np.asarray(boiling_point, dtype=float)
    reduced = np.minimum(np.asarray(temperature, dtype=float) / boiling, 1.3)
    a, m = 3 - 2 * reduced, 0.19
    bracket = 1 - a**m / reduced - 2 * m * a ** (m - 1) * np.log(reduced)
    return np.asarray(ATMOSPHERE * np.exp(np.log(82.06 * boiling) / 0.97 * bracket))


def slices(fuel: Fuel) -> Slices:
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

    Returns
    -------
    Slices
        Boiling points [K], molar masses [kg/kmol], shares of the mass [1], amounts [kmol/kg].

    References
    ----------
    Riazi and Daubert, Ind. Eng. Chem. Research 26 (1987), page 755, for M (from memory).
    """
    middle = (np.arange(COUNT) + 0.5) / COUNT
    curve = np.interp(middle, RECOVERED, TRUE_FACTOR * DISTILLED**TRUE_POWER)
    wanted = vapour_pressure(fuel, REID_TEMPERATURE)

    def surplus(factor: Floats) -> Floats:
        cut = _cut(curve * factor)
        pressures = cut.moles * saturation_pressure(cut.boiling_point, REID_TEMPERATURE)
        return np.asarray(np.sum(pressures) / np.sum(cut.moles) - wanted)

    return _cut(curve * root(surplus, 0.8, 1.25, name="boiling-point factor"))


def _cut(boiling: Floats) -> Slices:
    """Return equal volumes of the liquids with these boiling points."""
    gravity = (1.8 * boiling) ** (1 / 3) / WATSON
    power = 2.097e-4 * boiling - 7.78712 * gravity + 2.08476e-3 * boiling * gravity
    molar = 42.965 * np.exp(power) * boiling**1.26007 * gravity**4.98308
    share = gravity / np.sum(gravity)
    return Slices(boiling, molar, share, share / molar)


def evaporated_share(
    fuel: Fuel, temperature: ArrayLike, pressure: ArrayLike, ratio: ArrayLike
) -> Floats:
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
    numpy.ndarray
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
    heat, press, air = np.broadcast_arrays(
        between("temperature", temperature, 230, 420, "K"),
        positive("pressure", pressure, "Pa"),
        positive("air-fuel ratio", ratio),
    )
    cut = slices(fuel)
    volatile = saturation_pressure(cut.boiling_point, heat[..., None]) / press[..., None]

    def surplus(logarithm: Floats) -> Floats:
        phases = np.exp(logarithm)[..., None]
        excess = np.sum(cut.moles * phases * (1 - volatile) / (1 + volatile * phases), axis=-1)
        return np.asarray(excess - air / AIR_MASS)

    dry = np.sum(cut.moles * (1 / volatile - 1), axis=-1) <= air / AIR_MASS
    most = np.log(1e9)

    def balance(logarithm: Floats) -> Floats:
        return np.where(dry, logarithm - most, surplus(logarithm))

    phases = np.exp(root(balance, np.full(heat.shape, -12.0), most, name="vapour share"))
    vapour = volatile * phases[..., None]
    return np.asarray(np.where(dry, 1.0, np.sum(cut.mass_share * vapour / (1 + vapour), axis=-1)))


def effective_ratio(
    fuel: Fuel, temperature: ArrayLike, pressure: ArrayLike, ratio: ArrayLike
) -> Floats:
    """Return the air-fuel ratio that burns: air over the fuel that has evaporated.

    Parameters
    ----------
    fuel, temperature, pressure, ratio
        As in `evaporated_share`.

    Returns
    -------
    numpy.ndarray
        Effective air-fuel ratio [1], never below the one delivered.

    Notes
    -----
    Definition.
    """
    share = evaporated_share(fuel, temperature, pressure, ratio)
    return np.asarray(np.asarray(ratio) / share)


def delivered_ratio(
    fuel: Fuel, temperature: ArrayLike, pressure: ArrayLike, effective: ArrayLike
) -> Floats:
    """Return the air-fuel ratio a carburettor must deliver for a wanted effective one.

    Parameters
    ----------
    fuel, temperature, pressure
        As in `evaporated_share`.
    effective
        Effective air-fuel ratio wanted [1].

    Returns
    -------
    numpy.ndarray
        Air-fuel ratio to deliver [1].

    Raises
    ------
    ConvergenceError
        If a thousand times the fuel of the effective mixture would still not do.

    Notes
    -----
    `effective_ratio` turned round: more fuel always gives more vapour.
    """
    wanted, heat, press = np.broadcast_arrays(
        positive("effective ratio", effective), temperature, pressure
    )

    def surplus(ratio: Floats) -> Floats:
        return np.asarray(effective_ratio(fuel, heat, press, ratio) - wanted)

    return root(surplus, 1e-3 * wanted, wanted, name="air-fuel ratio", tolerance=1e-10)

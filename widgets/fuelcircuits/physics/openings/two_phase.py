"""Air and liquid fuel together through a restriction: homogeneous, frozen, signed, choking.

The two are taken as one fluid: evenly mixed, at one speed, the liquid neither evaporating nor
warming the air. Pure air is then isentropic gas flow and pure fuel is Bernoulli's orifice, and
one equation serves an economizer, an idle port, a nozzle and a bleed that spits back.

The model is known to be approximate in passages of about a millimetre, where air and fuel run
in slugs and at different speeds (Arias and Shedd, J. Fluids Eng. 127, 2005). Trends and limits
follow from it; an absolute air-fuel ratio to the last per cent does not.
"""

from typing import TypeAlias

import numpy as np
import numpy.typing as npt

from fuelcircuits.errors import between, positive
from fuelcircuits.physics.matter.atmosphere import AIR_CONSTANT
from fuelcircuits.physics.openings.gas_flow import HEAT_RATIO, SMOOTHING
from fuelcircuits.physics.openings.gas_flow import critical_ratio as gas_critical_ratio

__all__ = [
    "AIRY",
    "LEAST_VOID",
    "NEVER_CHOKES",
    "SMALLEST_DROP",
    "STEPS",
    "bore_area",
    "critical_ratio",
    "mass_flow",
    "mass_flux",
    "specific_volume",
    "unchoked",
    "void_share",
]

Numbers: TypeAlias = float | npt.NDArray[np.float64]

SMALLEST_DROP = 1e-9
"""Share of the pressure [1] below which a drop counts as the limit of small drops."""
NEVER_CHOKES = 0.45
"""No mixture chokes at a smaller share of the pressure than this [1]."""
LEAST_VOID = 1e-9
"""Below this share of air by volume the fluid is liquid [1]."""
STEPS = 4
"""Newton steps from Leung's explicit fit: the ratio is then good to 1e-6."""
AIRY = 0.3
"""Void above which two steps will do [1]; the flux at its peak is good to 1e-13."""


def bore_area(bore: Numbers) -> Numbers:
    """Return the area of a round hole [m2] from its bore [m]."""
    return 0.25 * np.pi * bore**2


def specific_volume(
    fuel_share: Numbers,
    pressure: Numbers,
    temperature: Numbers,
    fuel_density: Numbers,
    gas_constant: Numbers = AIR_CONSTANT,
) -> Numbers:
    r"""Return the volume of a kilogram of the mixture.

    .. math:: v = (1 - y) \frac{R T}{p} + \frac{y}{\rho_f}

    Parameters
    ----------
    fuel_share
        Mass of liquid fuel in a kilogram of mixture, y [1], 0 to 1.
    pressure
        Absolute pressure [Pa].
    temperature
        Temperature [K].
    fuel_density
        Density of the liquid fuel [kg/m3].
    gas_constant
        R of the air [J/(kg K)].

    Returns
    -------
    Specific volume [m3/kg].

    References
    ----------
    First principles.
    """
    result: Numbers = (1.0 - fuel_share) * (gas_constant * temperature / pressure)
    return result + fuel_share / fuel_density


def void_share(
    fuel_share: Numbers,
    pressure: Numbers,
    temperature: Numbers,
    fuel_density: Numbers,
    gas_constant: Numbers = AIR_CONSTANT,
) -> Numbers:
    r"""Return the share of the mixture's volume that is air.

    .. math:: \alpha = \frac{(1 - y) R T / p}{v}

    Parameters
    ----------
    fuel_share, pressure, temperature, fuel_density, gas_constant
        As in `specific_volume`.

    Returns
    -------
    Void share [1].

    References
    ----------
    First principles.
    """
    volume = specific_volume(fuel_share, pressure, temperature, fuel_density, gas_constant)
    result: Numbers = 1.0 - fuel_share / (fuel_density * volume)
    return result


def critical_ratio(
    void: Numbers, heat_ratio: Numbers = HEAT_RATIO, *, steps: int = STEPS
) -> Numbers:
    r"""Return the pressure ratio at which the mass flux of the mixture peaks.

    With :math:`V = \alpha\eta^{-1/\gamma} + 1 - \alpha` the volume after expansion to the
    ratio :math:`\eta`, over that before, and E the work of that expansion, the flux
    :math:`\sqrt{2 p_0 E / v_0} / V` peaks where

    .. math:: \frac{2\alpha}{\gamma} \eta^{-1-1/\gamma} E = V^2

    Parameters
    ----------
    void
        Share of the volume before the restriction that is air [1], 0 to 1.
    heat_ratio
        Ratio of specific heats of the air [1], above 1.
    steps
        Newton steps from the fit to Leung's method.

    Returns
    -------
    Throat pressure over upstream pressure [1]: 0.528 for air alone, nought for liquid alone.

    References
    ----------
    First principles. Newton's method starts at the explicit fit to Leung's omega method
    (J. C. Leung and M. A. Grolmes, AIChE J. 34, 1988; fit from memory), omega being
    :math:`\alpha/\gamma`; the result does not depend on the fit.
    """
    air = np.maximum(np.asarray(void, dtype=float), LEAST_VOID)
    ratio = _leung(air / heat_ratio)
    for _ in range(steps):
        swell = ratio ** (-1.0 / heat_ratio)
        volume = air * swell + 1.0 - air
        pull = 2.0 * air / heat_ratio * swell / ratio
        work = _work(air, ratio, heat_ratio)
        excess = np.log(pull * work) - 2.0 * np.log(volume)
        slope = pull / volume - (1.0 + 1.0 / heat_ratio) / ratio - volume / work
        ratio = np.clip(ratio - excess / slope, 0.3 * ratio, 0.5 + 0.5 * ratio)
    return ratio


def _leung(omega: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
    """Return the explicit fit to the critical ratio of Leung's omega method [1]."""
    start = 1.0 + (1.0446 - 0.0093431 * np.sqrt(omega)) * omega**-0.56261
    return np.asarray(start ** (-0.70356 + 0.014685 * np.log(omega)))


def _work(void: Numbers, ratio: Numbers, heat_ratio: Numbers) -> Numbers:
    """Return the work of expansion to `ratio`, over pressure times volume before it [1]."""
    power = (heat_ratio - 1.0) / heat_ratio
    result: Numbers = (1.0 - void) * (1.0 - ratio) - void / power * np.expm1(power * np.log(ratio))
    return result


def mass_flux(
    fuel_share: Numbers,
    upstream: Numbers,
    drop: Numbers,
    temperature: Numbers,
    fuel_density: Numbers,
    *,
    gas_constant: Numbers = AIR_CONSTANT,
    heat_ratio: float = HEAT_RATIO,
    smoothing: float = SMOOTHING,
) -> Numbers:
    r"""Return the mass flux of the mixture through the smallest section.

    .. math::
        G = \frac{1}{V}\sqrt{\frac{2 p_0 E}{v_0}}\, S, \qquad
        E = \alpha \frac{\gamma}{\gamma-1} \left(1 - \eta^{(\gamma-1)/\gamma}\right)
            + (1-\alpha)(1-\eta)

    with V and the least :math:`\eta` as in `critical_ratio`, and
    :math:`S = [\Delta^2/(\Delta^2 + \delta^2)]^{1/4}` the laminar rounding of `gas_flow`.

    Parameters
    ----------
    fuel_share
        Mass of liquid fuel in a kilogram of the mixture upstream [1], 0 to 1.
    upstream
        Absolute pressure before the restriction [Pa], positive.
    drop
        Pressure drop [Pa], from 0 to `upstream`.
    temperature
        Temperature of both phases [K].
    fuel_density
        Density of the liquid fuel [kg/m3].
    gas_constant, heat_ratio
        Of the air: [J/(kg K)] and [1].
    smoothing
        :math:`\delta` [Pa], positive.

    Returns
    -------
    Mass flux [kg/(s m2)], not negative.

    References
    ----------
    First principles: energy and continuity of a homogeneous mixture without exchange of mass
    or heat between its phases (the homogeneous frozen model).
    """
    volume = specific_volume(fuel_share, upstream, temperature, fuel_density, gas_constant)
    void: Numbers = 1.0
    if isinstance(fuel_share, np.ndarray) or fuel_share > 0.0:
        void = 1.0 - fuel_share / (fuel_density * volume)
    share = np.maximum(drop / upstream, SMALLEST_DROP)
    used = unchoked(np.asarray(share), void, heat_ratio)
    power = (heat_ratio - 1.0) / heat_ratio
    log = np.log1p(-used)
    work = (1.0 - void) * used - void / power * np.expm1(power * log)
    swollen = void * np.exp(log / -heat_ratio) + 1.0 - void
    rounding = np.sqrt(np.sqrt(drop * drop + smoothing * smoothing))
    soft = np.sqrt(2.0 * work / (volume * share)) * drop / rounding
    result: Numbers = soft / swollen
    return result


def unchoked(
    share: npt.NDArray[np.float64], void: Numbers, heat_ratio: float
) -> npt.NDArray[np.float64]:
    """Return the drop over the upstream pressure, cut off where the mixture chokes."""
    high = share > NEVER_CHOKES
    if not high.any():
        return share
    if isinstance(void, float) and void == 1.0:
        return np.minimum(share, 1.0 - gas_critical_ratio(heat_ratio))
    air = np.broadcast_to(void, share.shape)[high]
    most = 1.0 - critical_ratio(air, heat_ratio, steps=2 if air.min() > AIRY else STEPS)
    used = share.copy()
    used[high] = np.minimum(share[high], most)
    return used


def mass_flow(
    area: Numbers,
    pressure_from: Numbers,
    pressure_to: Numbers,
    temperature: Numbers,
    fuel_density: Numbers,
    *,
    fuel_share_from: Numbers,
    fuel_share_to: Numbers = 0.0,
    discharge: Numbers = 1.0,
    gas_constant: Numbers = AIR_CONSTANT,
    heat_ratio: float = HEAT_RATIO,
    smoothing: float = SMOOTHING,
) -> Numbers:
    r"""Return the signed mass flow of the mixture, :math:`\dot m = \pm C A G`.

    The mixture is that of the side it comes from. G is `mass_flux`.

    Parameters
    ----------
    area
        Smallest area A [m2], not negative.
    pressure_from, pressure_to
        Absolute pressures on the two sides [Pa], positive.
    temperature, fuel_density, gas_constant, heat_ratio, smoothing
        As in `mass_flux`.
    fuel_share_from, fuel_share_to
        Fuel in a kilogram of what stands on either side [1], 0 to 1.
    discharge
        Discharge coefficient C [1].

    Returns
    -------
    Mass flow of air and fuel together [kg/s], positive from `pressure_from` to `pressure_to`.

    Raises
    ------
    RangeError
        If a pressure is not positive or a fuel share is outside 0 to 1.
    """
    first = np.asarray(positive("pressure", pressure_from, "Pa"), dtype=float)
    second = np.asarray(positive("pressure", pressure_to, "Pa"), dtype=float)
    forward = first >= second
    share = np.where(
        forward,
        between("fuel share", fuel_share_from, 0.0, 1.0),
        between("fuel share", fuel_share_to, 0.0, 1.0),
    )
    flux = mass_flux(
        share,
        np.maximum(first, second),
        np.abs(first - second),
        temperature,
        fuel_density,
        gas_constant=gas_constant,
        heat_ratio=heat_ratio,
        smoothing=smoothing,
    )
    result: Numbers = np.where(forward, 1.0, -1.0) * discharge * area * flux
    return result

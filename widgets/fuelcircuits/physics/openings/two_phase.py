"""Air and liquid fuel together through a restriction: homogeneous, frozen, signed, choking.

The two are taken as one fluid: evenly mixed, at one speed, the liquid neither evaporating nor
warming the air. Pure air is then isentropic gas flow and pure fuel is Bernoulli's orifice, and
one equation serves an economizer, an idle port, a nozzle and a bleed that spits back.

The model is known to be approximate in passages of about a millimetre, where air and fuel run
in slugs and at different speeds (Arias and Shedd, J. Fluids Eng. 127, 2005). Trends and limits
follow from it; an absolute air-fuel ratio to the last per cent does not.
"""

from math import expm1, log, log1p, pi, sqrt

from fuelcircuits.physics.matter.atmosphere import AIR_CONSTANT
from fuelcircuits.physics.openings import gas_flow
from fuelcircuits.physics.openings.gas_flow import HEAT_RATIO, SMOOTHING

__all__ = [
    "AIRY",
    "LEAST_VOID",
    "NEVER_CHOKES",
    "STEPS",
    "bore_area",
    "critical_ratio",
    "mass_flux",
    "specific_volume",
]

NEVER_CHOKES = 0.45
"""No mixture chokes at a smaller share of the pressure than this [1]."""
LEAST_VOID = 1e-9
"""Below this share of air by volume the fluid is liquid [1]."""
STEPS = 4
"""Newton steps from Leung's explicit fit: the ratio is then good to 1e-6."""
AIRY = 0.3
"""Void above which two steps will do [1]; the flux at its peak is good to 1e-13."""


def bore_area(bore: float) -> float:
    """Return the area of a round hole [m2] from its bore [m]."""
    return 0.25 * pi * bore**2


def specific_volume(
    fuel_share: float,
    pressure: float,
    temperature: float,
    fuel_density: float,
    gas_constant: float = AIR_CONSTANT,
) -> float:
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
    return (1.0 - fuel_share) * (gas_constant * temperature / pressure) + fuel_share / fuel_density


def critical_ratio(void: float, heat_ratio: float = HEAT_RATIO, *, steps: int = STEPS) -> float:
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
    air, power = max(void, LEAST_VOID), (heat_ratio - 1.0) / heat_ratio
    ratio = _leung(air / heat_ratio)
    for _ in range(steps):
        swell = ratio ** (-1.0 / heat_ratio)
        volume = air * swell + 1.0 - air
        pull = 2.0 * air / heat_ratio * swell / ratio
        work = (1.0 - air) * (1.0 - ratio) - air / power * expm1(power * log(ratio))
        excess = log(pull * work) - 2.0 * log(volume)
        slope = pull / volume - (1.0 + 1.0 / heat_ratio) / ratio - volume / work
        least, most, ratio = 0.3 * ratio, 0.5 + 0.5 * ratio, ratio - excess / slope
        ratio = least if ratio < least else most if ratio > most else ratio
    return ratio


def _leung(omega: float) -> float:
    """Return the explicit fit to the critical ratio of Leung's omega method [1]."""
    start = 1.0 + (1.0446 - 0.0093431 * sqrt(omega)) * omega**-0.56261
    ratio: float = start ** (-0.70356 + 0.014685 * log(omega))
    return ratio


def mass_flux(
    fuel_share: float,
    pressure_from: float,
    pressure_to: float,
    gas: float,
    fuel_density: float,
    *,
    heat_ratio: float = HEAT_RATIO,
) -> float:
    r"""Return the signed mass flux of the mixture through the smallest section.

    .. math::
        G = \pm \frac{1}{V}\sqrt{\frac{2 p_0 E}{v_0}}\, S, \qquad
        E = \alpha \frac{\gamma}{\gamma-1} \left(1 - \eta^{(\gamma-1)/\gamma}\right)
            + (1-\alpha)(1-\eta)

    with :math:`p_0` the higher of the pressures, V and the least :math:`\eta` as in
    `critical_ratio`, and :math:`S = [\Delta^2/(\Delta^2 + \delta^2)]^{1/4}` the laminar
    rounding of `gas_flow` over the drop :math:`\Delta`.

    Parameters
    ----------
    fuel_share
        Mass of liquid fuel in a kilogram of what passes [1], 0 to 1.
    pressure_from, pressure_to
        Absolute pressures on the two sides [Pa], positive; not checked, for a balance that
        asks for the same openings many times.
    gas
        Gas constant of the air times the temperature of both phases [J/kg].
    fuel_density
        Density of the liquid fuel [kg/m3].
    heat_ratio
        Of the air [1], above 1.

    Returns
    -------
    Mass flux [kg/(s m2)], positive from `pressure_from` to `pressure_to`.

    References
    ----------
    First principles: energy and continuity of a homogeneous mixture without exchange of mass
    or heat between its phases (the homogeneous frozen model).
    """
    if fuel_share == 0.0:
        return gas_flow.mass_flux(pressure_from, pressure_to, gas, heat_ratio=heat_ratio)
    upstream, size = pressure_from, pressure_from - pressure_to
    back = size < 0.0
    if back:
        upstream, size = pressure_to, -size
    power, used = (heat_ratio - 1.0) / heat_ratio, size / upstream
    volume = (1.0 - fuel_share) * gas / upstream + fuel_share / fuel_density
    liquid = fuel_share / (fuel_density * volume)
    void = 1.0 - liquid
    if used > NEVER_CHOKES:
        used = min(used, _choking(void, heat_ratio))
    heat = -expm1(power * log1p(-used))
    work = liquid * used + void / power * heat
    swollen = void * (1.0 - heat) / (1.0 - used) + liquid
    blur = volume * sqrt(size * size + SMOOTHING * SMOOTHING)
    flux = sqrt(2.0 * work * size * upstream / blur) / swollen
    return -flux if back else flux


def _choking(void: float, heat_ratio: float) -> float:
    """Return the drop over the upstream pressure at which the mixture chokes [1]."""
    return 1.0 - critical_ratio(void, heat_ratio, steps=2 if void > AIRY else STEPS)

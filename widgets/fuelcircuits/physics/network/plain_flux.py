"""The mass flux of one mixture through one opening, in plain floats.

NumPy takes about a microsecond for an operation, however few the numbers. Where one state of
the network is asked for, and not hundreds, plain floats are ten times as fast.
"""

from math import copysign, exp, expm1, log, log1p, sqrt

from fuelcircuits.physics.openings.gas_flow import HEAT_RATIO, SMOOTHING
from fuelcircuits.physics.openings.two_phase import (
    AIRY,
    LEAST_VOID,
    NEVER_CHOKES,
    SMALLEST_DROP,
    STEPS,
)

__all__ = ["plain_flux"]

_POWER = (HEAT_RATIO - 1.0) / HEAT_RATIO
_GAS_CHOKES = 1.0 - float((2.0 / (HEAT_RATIO + 1.0)) ** (1.0 / _POWER))


def plain_flux(share: float, first: float, second: float, gas: float, density: float) -> float:
    """Return the signed mass flux from the first pressure to the second [kg/(s m2)].

    Parameters
    ----------
    share
        Fuel share of what passes [1]; nought for air alone.
    first, second
        Absolute pressures before and behind [Pa].
    gas
        Gas constant of the air times its temperature [J/kg].
    density
        Density of the liquid fuel [kg/m3].

    References
    ----------
    That of `fuelcircuits.physics.openings.two_phase.mass_flux`, whose equations these are.
    """
    drop = first - second
    high, size = (first, drop) if drop > 0.0 else (second, -drop)
    volume, void = gas / high, 1.0
    if share > 0.0:
        volume = (1.0 - share) * volume + share / density
        void = 1.0 - share / (density * volume)
    part = max(size / high, SMALLEST_DROP)
    used = part if part <= NEVER_CHOKES else min(part, _choking(void))
    fall = log1p(-used)
    work = (1.0 - void) * used - void / _POWER * expm1(_POWER * fall)
    swollen = void * exp(fall / -HEAT_RATIO) + 1.0 - void
    soft = sqrt(2.0 * work / (volume * part)) * size / sqrt(sqrt(size * size + SMOOTHING**2))
    return copysign(soft / swollen, drop)


def _choking(void: float) -> float:
    """Return the drop over the upstream pressure at which the mixture chokes [1]."""
    if void == 1.0:
        return _GAS_CHOKES
    air = max(void, LEAST_VOID)
    omega = air / HEAT_RATIO
    start = 1.0 + (1.0446 - 0.0093431 * sqrt(omega)) * omega**-0.56261
    ratio = float(start ** (-0.70356 + 0.014685 * log(omega)))
    for _ in range(2 if air > AIRY else STEPS):
        swell = ratio ** (-1.0 / HEAT_RATIO)
        volume = air * swell + 1.0 - air
        pull = 2.0 * air / HEAT_RATIO * swell / ratio
        work = (1.0 - air) * (1.0 - ratio) - air / _POWER * expm1(_POWER * log(ratio))
        excess = log(pull * work) - 2.0 * log(volume)
        slope = pull / volume - (1.0 + 1.0 / HEAT_RATIO) / ratio - volume / work
        ratio = min(max(ratio - excess / slope, 0.3 * ratio), 0.5 + 0.5 * ratio)
    return 1.0 - ratio

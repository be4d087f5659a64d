"""How the mass flux of a mixture answers to what drives it: pressures and fuel share.

A balance solved by Newton's method asks for the same openings again and again. With slopes
written out an opening is computed once for each point, whatever the number of unknowns.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.physics.openings.gas_flow import HEAT_RATIO, SMOOTHING
from fuelcircuits.physics.openings.two_phase import SMALLEST_DROP, unchoked

__all__ = ["FluxSlopes", "mass_flux_and_slopes"]

Floats = NDArray[np.float64]
Numbers = float | Floats


class FluxSlopes(NamedTuple):
    """A mass flux and its slopes."""

    flux: Floats  # kg/(s m2), not negative
    to_upstream: Floats  # kg/(s m2 Pa), the drop held
    to_drop: Floats  # kg/(s m2 Pa), the upstream pressure held
    to_share: Numbers  # kg/(s m2), to the fuel share; 0 for air alone


def mass_flux_and_slopes(
    fuel_share: Numbers,
    upstream: Floats,
    drop: Floats,
    temperature: Numbers,
    fuel_density: Numbers,
    *,
    gas_constant: Numbers,
) -> FluxSlopes:
    r"""Return what `fuelcircuits.physics.openings.two_phase.mass_flux` returns, with its slopes.

    With the symbols used there, :math:`s = \Delta/p_0`, u the drop over the pressure that is
    used (s, or its value where the mixture chokes) and :math:`r = 1 - u`,

    .. math::
        \frac{\partial \ln G}{\partial u} = \frac{V}{2E} - \frac{\alpha\, r^{-1/\gamma}}
            {\gamma r V}, \qquad
        \frac{\partial \ln G}{\partial \Delta} = \frac{1}{\Delta}\left(
            s \frac{\partial \ln G}{\partial u} + \frac{\delta^2}{2(\Delta^2 + \delta^2)}\right)

    .. math::
        \frac{\partial \ln G}{\partial p_0} = \frac{1}{p_0}\left(\frac{1 + \alpha}{2}
            - s \frac{\partial \ln G}{\partial u}
            - \alpha(1 - \alpha) \frac{\partial \ln G}{\partial \alpha}\right), \qquad
        \frac{\partial \ln G}{\partial y} = -\frac{1}{2v}\left(\frac{1}{\rho_f}
            - \frac{R T}{p_0}\right) - \frac{R T}{p_0 \rho_f v^2}
            \frac{\partial \ln G}{\partial \alpha}

    Where the mixture chokes its flux is at a peak and the slope to u is nought.

    Parameters
    ----------
    fuel_share
        Mass of liquid fuel in a kilogram of the mixture [1], 0 to 1; the number 0 for air.
    upstream
        Absolute pressure before the restriction [Pa], positive.
    drop
        Pressure drop [Pa], from 0 to `upstream`.
    temperature
        Temperature of both phases [K].
    fuel_density
        Density of the liquid fuel [kg/m3].
    gas_constant
        Of the air [J/(kg K)].

    Returns
    -------
    FluxSlopes
        The flux is that of `mass_flux` to rounding.

    References
    ----------
    First principles: `mass_flux` differentiated.
    """
    gas = gas_constant * temperature / upstream
    volume = (1.0 - fuel_share) * gas + fuel_share / fuel_density
    airy = not isinstance(fuel_share, np.ndarray) and fuel_share == 0.0
    void: Numbers = 1.0 if airy else 1.0 - fuel_share / (fuel_density * volume)
    share = np.maximum(drop / upstream, SMALLEST_DROP)
    used = unchoked(share, void, HEAT_RATIO)
    power = (HEAT_RATIO - 1.0) / HEAT_RATIO
    log = np.log1p(-used)
    lifted = np.expm1(power * log) / -power
    swell = np.exp(log / -HEAT_RATIO)
    liquid = 1.0 - void
    work = void * lifted + liquid * used
    swollen = void * swell + liquid
    blur = drop * drop + SMOOTHING**2
    per_drop = np.sqrt(2.0 * work / (volume * share * np.sqrt(blur))) / swollen
    flux = per_drop * drop
    steep = 0.5 * swollen / work - void * swell / (HEAT_RATIO * (1.0 - used) * swollen)
    bend = np.where(used < share, 0.0, share * steep)
    to_drop = per_drop * (bend + 0.5 * SMOOTHING**2 / blur)
    if airy:
        return FluxSlopes(flux, flux * (1.0 - bend) / upstream, to_drop, 0.0)
    per_void = 0.5 * (lifted - used) / work - (swell - 1.0) / swollen
    to_upstream = flux * (0.5 + 0.5 * void - bend - per_void * void * liquid) / upstream
    light = 1.0 / fuel_density
    to_share = flux * (0.5 * (gas - light) - per_void * gas * light / volume) / volume
    return FluxSlopes(flux, to_upstream, to_drop, to_share)

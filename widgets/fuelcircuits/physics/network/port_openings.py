"""Every opening that the network's air passes: from where, to where, how wide, how much.

An opening's flow depends on the pressures at its two ends and on the mixture before it. It is
computed once for a point, with its slopes; the copies of a point that a solver shifts a little
to learn the network's slopes follow from those.
"""

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.physics.network.flux_slopes import mass_flux_and_slopes
from fuelcircuits.physics.network.problem import Parts, Points
from fuelcircuits.physics.openings.two_phase import mass_flux

__all__ = ["EACH", "ENDS", "SHARED", "ends", "opening_areas", "through"]

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]

ENDS = {
    "cleaner": ("outside", "horn"),
    "choke": ("horn", "choke"),
    "leak": ("outside", "manifold"),
    "inside vent": ("horn", "bowl"),
    "outside vent": ("outside", "bowl"),
    "canister": ("canister", "bowl"),
    "gasket": ("outside", "bowl"),
    "venturi": ("choke", "venturi"),
    "main bleed": ("horn", "tube"),
    "bypass": ("choke", "mix"),
    "idle air": ("horn", "mix"),
    "throttle": ("throttle", "manifold"),
    "pull-over": ("mix", "foot"),
    "backflow": ("booster", "bottom"),
    "slot above": ("throttle", "chamber"),
    "valve": ("choke", "chamber"),
    "slot below": ("chamber", "manifold"),
    "screw": ("chamber", "manifold"),
}
"""Between which two pressures an opening lies; the first seven are there once."""
COMMON = 7
SHARED = ("outside", "canister", "horn", "choke", "manifold", "bowl")
"""Pressures that are there once."""
EACH = ("venturi", "well", "tube", "mix", "chamber", "booster", "throttle", "foot", "bottom")
"""Pressures of every barrel."""


@lru_cache(maxsize=8)
def ends(barrels: int) -> tuple[Indices, Indices]:
    """Return the row of the pressure at either end of every opening.

    Parameters
    ----------
    barrels
        Barrels told apart. Pressures run through `SHARED`, then through `EACH` barrel by
        barrel; openings run through `ENDS` in the same way.
    """
    rows = {name: np.array([row]) for row, name in enumerate(SHARED)}
    for place, name in enumerate(EACH):
        rows[name] = len(SHARED) + place * barrels + np.arange(barrels)
    both = []
    for place, pair in enumerate(ENDS.values()):
        count = 1 if place < COMMON else barrels
        both.append([np.broadcast_to(rows[name], count) for name in pair])
    first, second = zip(*both, strict=True)
    return np.concatenate(first), np.concatenate(second)


def opening_areas(parts: Parts, points: Points, barrels: int) -> Floats:
    """Return the effective area of every opening, the movable ones at their widest.

    Parameters
    ----------
    parts, points
        Areas of the network and of its points.
    barrels
        Barrels told apart.

    Returns
    -------
    Areas [m2], shape (openings, copies, points).
    """
    common: tuple[Floats | float, ...] = (
        parts.cleaner,
        points.choke,
        parts.leak,
        points.vent_inside,
        points.vent_outside,
        points.vent_canister,
        points.vent_gasket,
    )
    each: tuple[Floats | float, ...] = (
        parts.venturi,
        parts.bleed,
        parts.bypass,
        points.idle_air,
        points.throttle,
        parts.tube,
        parts.nozzle,
        points.above,
        parts.valve,
        points.below,
        points.port,
    )
    wide = points.angle.shape if points.angle.ndim > 1 else (1, points.angle.size)
    areas = np.empty((len(common) + len(each) * barrels, *wide))
    for row, area in enumerate(common):
        areas[row] = area
    for row, area in enumerate(each):
        start = len(common) + row * barrels
        areas[start : start + barrels] = area
    return areas


def through(points: Points, first: Floats, second: Floats, share: Floats | float = 0.0) -> Floats:
    r"""Return the signed mass flux from the first pressure to the second.

    Copy 0 of each point is computed; for any other copy c

    .. math:: G_c = G_0 + \frac{\partial G}{\partial p_1} (p_{1c} - p_{10})
              + \frac{\partial G}{\partial p_2} (p_{2c} - p_{20})
              + \frac{\partial G}{\partial y} (y_c - y_0)

    so the copies may be shifted by little more than rounding.

    Parameters
    ----------
    points
        The operating points.
    first, second
        Pressures before and behind [Pa], shape (..., copies, points).
    share
        Fuel share of what passes [1], in that shape; the number 0 for air alone.

    Returns
    -------
    Mass flux [kg/(s m2)] in that shape.

    References
    ----------
    `fuelcircuits.physics.openings.two_phase.mass_flux`.
    """
    here, there = first[..., :1, :], second[..., :1, :]
    drop = here - there
    fluid = points.temperature, points.fuel_density
    high, size = np.maximum(here, there), np.abs(drop)
    base = share if isinstance(share, float) else share[..., :1, :]
    if first.shape[-2] == 1:
        flux = mass_flux(base, high, size, *fluid, gas_constant=points.gas_constant)
        return np.asarray(np.copysign(flux, drop))
    found = mass_flux_and_slopes(base, high, size, *fluid, gas_constant=points.gas_constant)
    sign = np.copysign(1.0, drop)
    half = 0.5 * found.to_upstream
    mean, uneven = found.to_drop + half, sign * half
    flux = sign * found.flux + (mean + uneven) * (first - here) - (mean - uneven) * (second - there)
    if not isinstance(share, float):
        flux += sign * found.to_share * (share - base)
    return np.asarray(flux)

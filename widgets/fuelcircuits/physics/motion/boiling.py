"""Fuel that boils off in the bowl: how fast, and against which pressure.

Petrol's lightest parts boil at about 50 degC; what is left boils ever hotter.
"""

from typing import NamedTuple, TypeAlias

import numpy as np
from numpy.typing import ArrayLike, NDArray

from fuelcircuits.errors import ConvergenceError
from fuelcircuits.physics.circuits.bowl_vents import DISCHARGE, Vents, openings
from fuelcircuits.physics.circuits.hot_soak import HotSoak
from fuelcircuits.physics.matter import fuel as liquid
from fuelcircuits.physics.matter.fuel import Fuel

__all__ = [
    "VAPOUR_CONSTANT",
    "Boiler",
    "boiler",
    "boiling",
    "boiling_margin",
    "remaining_pressure",
    "spreading",
    "vapour_flow",
    "vapour_line",
]

Floats = NDArray[np.float64]
Numbers: TypeAlias = float | Floats

VAPOUR_CONSTANT = 8314.46 / 66
"""Gas constant of petrol vapour [J/(kg K)]; 66 kg/kmol is AP-42 table 7.1-2, RVP 10."""
NEARLY_BOILING = 0.95
"""Share of ambient pressure up to which vapour leaves by diffusion alone [1]."""
LOSS_SLOPE = 100 * liquid.DISTILLATION_SLOPE / 1.8
"""Rise of the boiling point while the whole fuel is lost [K]."""


def vapour_line(fuel: Fuel) -> tuple[Numbers, Numbers]:
    r"""Return the constants c and d of a fuel's vapour pressure.

    .. math:: \ln p_v = c - \frac{d}{T}

    Parameters
    ----------
    fuel
        The fuel.

    Returns
    -------
    c, d : numpy.ndarray
        The logarithm of a pressure in pascals [1], and a temperature [K].

    References
    ----------
    The form of `fuelcircuits.physics.matter.fuel.vapour_pressure`, which is a straight line in 1/T:
    two of its points give the line.
    """
    low, high = liquid.COLDEST, liquid.HOTTEST
    ends = [np.log(liquid.vapour_pressure(fuel, each)) for each in (low, high)]
    fall = (ends[1] - ends[0]) / (1 / low - 1 / high)
    return ends[1] + fall / high, fall


def remaining_pressure(
    line: tuple[Numbers, Numbers], temperature: Numbers, lost_share: Numbers
) -> Numbers:
    r"""Return the vapour pressure of what is left in the bowl.

    .. math:: p_v = p_{fresh}(T - S f)

    What has boiled off were the lightest parts. The rest has the vapour pressure that fresh
    fuel has at a lower temperature: lower by the slope S of the distillation curve for each
    share f lost.

    Parameters
    ----------
    line
        What `vapour_line` gives for the fuel as it came.
    temperature
        Temperature of the fuel T [K].
    lost_share
        Share f of the fuel that has boiled off [1].

    Returns
    -------
    Pressure [Pa]; where T - S f is outside 223 to 363 K, that of the nearer end.

    References
    ----------
    EPA AP-42 chapter 7.1 for vapour pressure and slope S; moving along the curve as the fuel
    is lost: first principles.
    """
    fresh = np.maximum(temperature - LOSS_SLOPE * lost_share, liquid.COLDEST)
    pressure: Numbers = np.exp(line[0] - line[1] / np.minimum(fresh, liquid.HOTTEST))
    return pressure


def boiling_margin(
    fuel: Fuel, temperature: Numbers, lost_share: Numbers, pressure: Numbers
) -> Numbers:
    """Return the vapour pressure of what is left in the bowl, less the pressure on it.

    Parameters
    ----------
    fuel
        The fuel as it came.
    temperature, lost_share
        As in `remaining_pressure`.
    pressure
        Pressure on the fuel [Pa], absolute.

    Returns
    -------
    Margin [Pa]; above nought the fuel boils.

    References
    ----------
    `remaining_pressure`.
    """
    return remaining_pressure(vapour_line(fuel), temperature, lost_share) - pressure


def spreading(soak: HotSoak, share: Numbers) -> Numbers:
    r"""Return the vapour that spreads out of a bowl which does not boil.

    .. math:: \dot m = s \ln\frac{p}{p - p_v}

    Parameters
    ----------
    soak
        Spread rate s [kg/s].
    share
        Vapour pressure p\ :sub:`v` over the pressure p on the fuel [1]; taken as 0.95 above.

    Returns
    -------
    Vapour [kg/s].

    References
    ----------
    Stefan's law of diffusion through a stagnant gas; that breathing obeys it too is common
    practice, no source.
    """
    flow: Numbers = -soak.spread_rate * np.log1p(-np.minimum(share, NEARLY_BOILING))
    return flow


class Boiler(NamedTuple):
    """A standing bowl: what stays the same while it gets hot and its fuel boils off."""

    soak: HotSoak
    line: tuple[Numbers, Numbers]  # of the fuel's vapour pressure
    ambient: Numbers  # Pa
    back: Numbers  # Pa s2/(kg2 K), overpressure for flow squared times temperature


def boiler(soak: HotSoak, vents: Vents, fuel: Fuel, ambient: Numbers) -> Boiler:
    """Return a standing bowl for `boiling`.

    Parameters
    ----------
    soak, vents, fuel, ambient
        As in `vapour_flow`.

    Returns
    -------
    Boiler
        The bowl.

    Raises
    ------
    ConvergenceError
        If every vent is shut.
    """
    area = DISCHARGE * sum(openings(vents, 0.0, 0.0), np.zeros(()))
    if not np.all(area > 0):
        raise ConvergenceError("bowl vents must leave one opening, got every vent shut")
    back = VAPOUR_CONSTANT / (2 * ambient * area**2)
    return Boiler(soak, vapour_line(fuel), ambient, back)


def boiling(
    bowl: Boiler, temperature: Numbers, lost_share: Numbers
) -> tuple[Numbers, Numbers, Numbers]:
    """Return the vapour made, the part that boils, and the bowl's pressure above ambient.

    The relation is that of `vapour_flow`; nothing is checked or converted, for a soak that
    asks the same bowl at every step.

    Parameters
    ----------
    bowl
        The standing bowl.
    temperature, lost_share
        As in `remaining_pressure`.

    Returns
    -------
    flow, boiling, overpressure
        All vapour [kg/s], the part boiled [kg/s], and the overpressure [Pa].
    """
    pressure, rate = remaining_pressure(bowl.line, temperature, lost_share), bowl.soak.boil_rate
    spread, back = spreading(bowl.soak, pressure / bowl.ambient), bowl.back * temperature
    push = rate * np.maximum(pressure - bowl.ambient - back * spread * spread, 0.0)
    steep = 1 + 2 * rate * back * spread
    boiled = 2 * push / (steep + np.sqrt(steep * steep + 4 * rate * back * push))
    flow = spread + boiled
    return flow, boiled, back * flow * flow


def vapour_flow(
    soak: HotSoak,
    vents: Vents,
    fuel: Fuel,
    temperature: ArrayLike,
    lost_share: ArrayLike,
    *,
    ambient: ArrayLike,
) -> tuple[Floats, Floats, Floats]:
    r"""Return the vapour made in a standing bowl, the part that boils, and the bowl's pressure.

    .. math::
        \dot m = s \ln\frac{p_a}{p_a - p_v'} + b \max(p_v - p_a - \Delta p, 0), \qquad
        \Delta p = \frac{1}{2 \rho_v} \left(\frac{\dot m}{C A}\right)^2

    Below boiling vapour spreads out as Stefan's diffusion does, with p\ :sub:`v`' the vapour
    pressure up to 95 % of ambient; above, it boils against the pressure that drives it out.

    Parameters
    ----------
    soak
        Spread rate s [kg/s] and boil rate b [kg/(s Pa)].
    vents
        Openings of area A, throttle closed and ignition off.
    fuel, temperature, lost_share
        As in `boiling_margin`.
    ambient
        Pressure outside p_a [Pa], absolute.

    Returns
    -------
    flow, boiling, pressure : numpy.ndarray
        All vapour [kg/s], the part boiled [kg/s], and the bowl's absolute pressure [Pa].

    Raises
    ------
    ConvergenceError
        If every vent is shut.

    Notes
    -----
    First principles; the two rates stand for the heat and the stirring that a lump cannot
    show (common practice, no source). The quadratic is solved exactly.
    """
    heat, lost, outside = (
        np.asarray(each, dtype=float) for each in (temperature, lost_share, ambient)
    )
    flow, boiled, over = boiling(boiler(soak, vents, fuel, outside), heat, lost)
    return np.asarray(flow), np.asarray(boiled), np.asarray(outside + over)

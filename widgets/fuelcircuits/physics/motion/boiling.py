"""Fuel that boils off in the bowl: how fast, and against which pressure.

Petrol's lightest parts boil at about 50 degC; what is left boils ever hotter.
"""

from math import exp, log, log1p, sqrt
from typing import NamedTuple

from fuelcircuits.physics.circuits.bowl_vents import DISCHARGE, Vents, open_area, openings
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

VAPOUR_CONSTANT = 8314.46 / 66
"""Gas constant of petrol vapour [J/(kg K)]; 66 kg/kmol is AP-42 table 7.1-2, RVP 10."""
NEARLY_BOILING = 0.95
"""Share of ambient pressure up to which vapour leaves by diffusion alone [1]."""
LOSS_SLOPE = 100 * liquid.DISTILLATION_SLOPE / 1.8
"""Rise of the boiling point while the whole fuel is lost [K]."""


def vapour_line(fuel: Fuel) -> tuple[float, float]:
    r"""Return the constants c and d of a fuel's vapour pressure.

    .. math:: \ln p_v = c - \frac{d}{T}

    Parameters
    ----------
    fuel
        The fuel.

    Returns
    -------
    c, d
        The logarithm of a pressure in pascals [1], and a temperature [K].

    References
    ----------
    The form of `fuelcircuits.physics.matter.fuel.vapour_pressure`, which is a straight line in 1/T:
    two of its points give the line.
    """
    low, high = liquid.COLDEST, liquid.HOTTEST
    cold, hot = (log(liquid.vapour_pressure(fuel, each)) for each in (low, high))
    fall = (hot - cold) / (1 / low - 1 / high)
    return hot + fall / high, fall


def remaining_pressure(line: tuple[float, float], temperature: float, lost_share: float) -> float:
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
    fresh = max(temperature - LOSS_SLOPE * lost_share, liquid.COLDEST)
    return exp(line[0] - line[1] / min(fresh, liquid.HOTTEST))


def boiling_margin(fuel: Fuel, temperature: float, lost_share: float, pressure: float) -> float:
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


def spreading(soak: HotSoak, share: float) -> float:
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
    return -soak.spread_rate * log1p(-min(share, NEARLY_BOILING))


class Boiler(NamedTuple):
    """A bowl: what stays the same while it gets hot and its fuel boils off."""

    soak: HotSoak
    line: tuple[float, float]  # of the fuel's vapour pressure
    ambient: float  # Pa
    back: float  # Pa s2/(kg2 K), overpressure for flow squared times temperature


def boiler(
    soak: HotSoak,
    vents: Vents,
    fuel: Fuel,
    ambient: float,
    *,
    throttle: float = 0.0,
    ignition: float = 0.0,
) -> Boiler:
    """Return a bowl for `boiling`.

    Parameters
    ----------
    soak, vents, fuel, ambient
        As in `vapour_flow`.
    throttle, ignition
        Throttle angle [rad] and ignition, 1 on [1], by which the vents are open; both shut
        where a car stands.

    Returns
    -------
    Boiler
        The bowl.

    Raises
    ------
    ConvergenceError
        If every vent is shut.
    """
    area = DISCHARGE * open_area(openings(vents, throttle, ignition))
    back = VAPOUR_CONSTANT / (2 * ambient * area**2)
    return Boiler(soak, vapour_line(fuel), ambient, back)


def boiling(bowl: Boiler, temperature: float, lost_share: float) -> tuple[float, float, float]:
    """Return the vapour made, the part that boils, and the bowl's pressure above ambient.

    The relation is that of `vapour_flow`, for whoever asks the same bowl again and again.

    Parameters
    ----------
    bowl
        The bowl.
    temperature, lost_share
        As in `remaining_pressure`.

    Returns
    -------
    flow, boiling, overpressure
        All vapour [kg/s], the part boiled [kg/s], and the overpressure [Pa].
    """
    pressure, rate = remaining_pressure(bowl.line, temperature, lost_share), bowl.soak.boil_rate
    spread, back = spreading(bowl.soak, pressure / bowl.ambient), bowl.back * temperature
    push = rate * max(pressure - bowl.ambient - back * spread * spread, 0.0)
    steep = 1 + 2 * rate * back * spread
    boiled = 2 * push / (steep + sqrt(steep * steep + 4 * rate * back * push))
    flow = spread + boiled
    return flow, boiled, back * flow * flow


def vapour_flow(
    soak: HotSoak,
    vents: Vents,
    fuel: Fuel,
    temperature: float,
    lost_share: float,
    *,
    ambient: float,
) -> tuple[float, float, float]:
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
    flow, boiling, pressure
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
    bowl = boiler(soak, vents, fuel, ambient)
    flow, boiled, over = boiling(bowl, temperature, lost_share)
    return flow, boiled, ambient + over

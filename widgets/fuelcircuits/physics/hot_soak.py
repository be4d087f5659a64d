"""The heat of a stopped engine in the bowl: how hot the fuel gets, and how fast it boils off.

The fan stops, the coolant stands, and the heat of the exhaust side spreads through the block
and up into the carburettor. Petrol's lightest parts boil at about 50 degC; what is left boils
ever hotter.
"""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from fuelcircuits.entry import Section, entry
from fuelcircuits.errors import ConvergenceError
from fuelcircuits.physics import fuel as liquid
from fuelcircuits.physics.fuel import Fuel
from fuelcircuits.physics.vents import DISCHARGE, Openings, Vents, openings

__all__ = ["Heat", "HotSoak", "boiling_margin", "heat_flows", "outlets", "spreading", "vapour_flow"]

Floats = NDArray[np.float64]

VAPOUR_CONSTANT = 8314.46 / 66
"""Gas constant of petrol vapour [J/(kg K)]; 66 kg/kmol is AP-42 table 7.1-2, RVP 10."""
LIQUID_HEAT = 2100.0
"""Specific heat of petrol [J/(kg K)] (common practice, no source)."""
NEARLY_BOILING = 0.95
"""Share of ambient pressure up to which vapour leaves by diffusion alone [1]."""


@dataclass(frozen=True, kw_only=True)
class HotSoak(Section):
    """Heat stores and heat paths round the bowl, and the intake it spills into (invented)."""

    exhaust_heat: float = entry("J/K", 1e3, 100e3, "heat capacity of the hot exhaust side")
    exhaust_temperature: float = entry(
        "K", 380, 1000, "temperature of the exhaust side when the engine stops", 650.0
    )
    exhaust_to_block: float = entry("W/K", 0.1, 100, "conductance, exhaust side to block")
    exhaust_to_air: float = entry("W/K", 0.1, 100, "conductance, exhaust side to the air around")
    block_heat: float = entry("J/K", 10e3, 1e6, "heat capacity of block and coolant")
    block_temperature: float = entry(
        "K", 300, 400, "temperature of the block when the engine stops", 363.0
    )
    block_to_air: float = entry("W/K", 0.1, 200, "conductance, block to the air around")
    block_to_bowl: float = entry("W/K", 0.05, 10, "conductance, manifold flange to bowl")
    bowl_to_air: float = entry("W/K", 0.05, 10, "conductance, bowl to the air around")
    bowl_heat: float = entry("J/K", 100, 10e3, "heat capacity of the bowl's metal")
    bowl_rise: float = entry(
        "K", 0, 60, "running bowl temperature above that of the air outside", 15.0
    )
    boil_rate: float = entry(
        "kg/(s*Pa)", 1e-9, 1e-6, "vapour made for each pascal above the bowl's pressure", 1.5e-8
    )
    spread_rate: float = entry("kg/s", 0, 1e-5, "scale of the vapour lost below boiling", 4e-7)
    carry_over: float = entry(
        "1", 0, 10, "liquid that bubbles lift over the nozzle, for a unit of vapour boiled", 0.3
    )
    intake_drying: float = entry(
        "s", 60, 10e3, "time constant with which spilt fuel leaves the intake", 1200.0
    )
    wash_out: float = entry(
        "s", 0.2, 30, "time constant with which cranking draws spilt fuel out", 3.0
    )
    crank_speed: float = entry("rad/s", 5, 40, "cranking speed", 16.0)
    warm_up: float = entry("s", 30, 3000, "time constant of the coolant after a start", 240.0)
    crank_least: float = entry("s", 0.1, 5, "cranking time of an engine that is all right", 0.8)
    crank_pump: float = entry("kg/s", 1e-4, 20e-3, "fuel that cranking pumps into the bowl", 2.5e-3)
    dry_drop: float = entry("m", 1e-3, 40e-3, "fall of the level at which the jets run dry", 12e-3)


class Heat(NamedTuple):
    """Heat flows [W]; each into the second-named part."""

    exhaust_to_block: Floats
    exhaust_to_air: Floats
    block_to_air: Floats
    block_to_bowl: Floats
    air_to_bowl: Floats


def heat_flows(
    soak: HotSoak, exhaust: ArrayLike, block: ArrayLike, bowl: ArrayLike, ambient: ArrayLike
) -> Heat:
    r"""Return the heat that flows between the lumps under a closed bonnet.

    .. math:: \dot Q_{ij} = G_{ij} (T_i - T_j)

    The air around the bowl is the mean of exhaust side, block and outside air, each by its
    own conductance, the outside counting as much as the two together.

    Parameters
    ----------
    soak
        Conductances G [W/K].
    exhaust, block, bowl, ambient
        Temperatures [K] of exhaust side, block, bowl, and air outside.

    Returns
    -------
    Heat
        Flows [W].

    Notes
    -----
    First principles for lumps; the mean that stands for the air is common practice, no source.
    """
    hot, warm, fuel, cold = (
        np.asarray(each, dtype=float) for each in (exhaust, block, bowl, ambient)
    )
    total = soak.exhaust_to_air + soak.block_to_air
    inside = (soak.exhaust_to_air * hot + soak.block_to_air * warm + total * cold) / (2 * total)
    return Heat(
        exhaust_to_block=np.asarray(soak.exhaust_to_block * (hot - warm)),
        exhaust_to_air=np.asarray(soak.exhaust_to_air * (hot - inside)),
        block_to_air=np.asarray(soak.block_to_air * (warm - inside)),
        block_to_bowl=np.asarray(soak.block_to_bowl * (warm - fuel)),
        air_to_bowl=np.asarray(soak.bowl_to_air * (inside - fuel)),
    )


def boiling_margin(
    fuel: Fuel, temperature: ArrayLike, lost_share: ArrayLike, pressure: ArrayLike
) -> Floats:
    r"""Return the vapour pressure of what is left in the bowl, less the pressure on it.

    .. math:: p_v = p_{fresh}(T - S f)

    What has boiled off were the lightest parts. The rest has the vapour pressure that fresh
    fuel has at a lower temperature: lower by the slope S of the distillation curve for each
    share f lost.

    Parameters
    ----------
    fuel
        The fuel as it came.
    temperature
        Temperature of the fuel T [K].
    lost_share
        Share f of the fuel that has boiled off [1].
    pressure
        Pressure on the fuel [Pa], absolute.

    Returns
    -------
    numpy.ndarray
        Margin [Pa]; above nought the fuel boils.

    References
    ----------
    EPA AP-42 chapter 7.1 for vapour pressure and slope S; moving along the curve as the fuel
    is lost: first principles.
    """
    slope = 100 * liquid.DISTILLATION_SLOPE / 1.8  # K for the whole fuel
    fresh = np.asarray(temperature, dtype=float) - slope * np.asarray(lost_share)
    held = np.clip(fresh, liquid.COLDEST, liquid.HOTTEST)
    return np.asarray(liquid.vapour_pressure(fuel, held) - np.asarray(pressure))


def spreading(soak: HotSoak, margin: ArrayLike, pressure: ArrayLike) -> Floats:
    r"""Return the vapour that spreads out of a bowl which does not boil.

    .. math:: \dot m = s \ln\frac{p}{p - p_v}

    Parameters
    ----------
    soak
        Spread rate s [kg/s].
    margin
        Vapour pressure less the pressure on the fuel [Pa]: p\ :sub:`v` - p, taken as no more
        than -5 % of p.
    pressure
        Pressure p on the fuel [Pa].

    Returns
    -------
    numpy.ndarray
        Vapour [kg/s].

    References
    ----------
    Stefan's law of diffusion through a stagnant gas; that breathing obeys it too is common
    practice, no source.
    """
    share = np.asarray(margin, dtype=float) / np.asarray(pressure, dtype=float) + 1
    return np.asarray(-soak.spread_rate * np.log1p(-np.clip(share, 0, NEARLY_BOILING)))


def outlets(vents: Vents, throttle_angle: ArrayLike = 0.0, ignition: ArrayLike = 0.0) -> Openings:
    """Return the share of the vapour that leaves by each opening with the engine stopped.

    Parameters
    ----------
    vents
        The bowl's vents.
    throttle_angle
        Plate angle [rad]; closed if not given.
    ignition
        1 with the ignition on, 0 with it off.

    Returns
    -------
    Openings
        Shares [1], which add up to 1.

    Raises
    ------
    ConvergenceError
        If every opening is shut: the vapour would burst the gasket.

    Notes
    -----
    First principles: behind all openings lies the same pressure, so flow goes with area.
    """
    areas = openings(vents, throttle_angle, ignition)
    total = sum(areas, np.zeros(()))
    if not np.all(total > 0):
        raise ConvergenceError("bowl vents must leave one opening, got every vent shut")
    return Openings(*(np.asarray(area / total) for area in areas))


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
    outside = np.asarray(ambient, dtype=float)
    margin = boiling_margin(fuel, temperature, lost_share, outside)
    spread = spreading(soak, margin, outside)
    area = DISCHARGE * sum(openings(vents, 0.0, 0.0), np.zeros(()))
    if not np.all(area > 0):
        raise ConvergenceError("bowl vents must leave one opening, got every vent shut")
    density = outside / (VAPOUR_CONSTANT * np.asarray(temperature, dtype=float))
    back = 1 / (2 * density * area**2)
    head = margin - back * spread**2
    steep = 1 + 2 * soak.boil_rate * back * spread
    push = soak.boil_rate * np.maximum(head, 0.0)
    boiling = 2 * push / (steep + np.sqrt(steep**2 + 4 * soak.boil_rate * back * push))
    flow = spread + boiling
    return flow, boiling, outside + back * flow**2

"""The heat of a stopped engine, on its way to the bowl, and the ways out for its vapour.

The fan stops, the coolant stands, and the heat of the exhaust side spreads through the block
and up into the carburettor. What it does to the fuel there: `fuelcircuits.physics.motion.boiling`.
"""

from dataclasses import dataclass
from typing import NamedTuple

from fuelcircuits.physics.circuits.bowl_vents import Openings, Vents, open_area, openings
from fuelcircuits.physics.entry import Section, entry

__all__ = ["LIQUID_HEAT", "Heat", "HotSoak", "bonnet_air", "heat_flows", "outlets"]

LIQUID_HEAT = 2100.0
"""Specific heat of petrol [J/(kg K)] (common practice, no source)."""


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

    exhaust_to_block: float
    exhaust_to_air: float
    block_to_air: float
    block_to_bowl: float
    air_to_bowl: float


def bonnet_air(soak: HotSoak, exhaust: float, block: float, ambient: float) -> float:
    """Return the temperature of the air round bowl and choke under a closed bonnet [K].

    Parameters
    ----------
    soak
        Conductances from exhaust side and block to that air [W/K].
    exhaust, block, ambient
        Temperatures [K] of exhaust side, block, and air outside.

    Notes
    -----
    The mean of exhaust side, block and outside air, each by its own conductance, the outside
    counting as much as the two together: common practice, no source.
    """
    total = soak.exhaust_to_air + soak.block_to_air
    warmth = soak.exhaust_to_air * exhaust + soak.block_to_air * block
    return (warmth + total * ambient) / (2 * total)


def heat_flows(soak: HotSoak, exhaust: float, block: float, bowl: float, ambient: float) -> Heat:
    r"""Return the heat that flows between the lumps under a closed bonnet.

    .. math:: \dot Q_{ij} = G_{ij} (T_i - T_j)

    The air around the bowl is that of `bonnet_air`.

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
    First principles for lumps.
    """
    inside = bonnet_air(soak, exhaust, block, ambient)
    return Heat(
        exhaust_to_block=soak.exhaust_to_block * (exhaust - block),
        exhaust_to_air=soak.exhaust_to_air * (exhaust - inside),
        block_to_air=soak.block_to_air * (block - inside),
        block_to_bowl=soak.block_to_bowl * (block - bowl),
        air_to_bowl=soak.bowl_to_air * (inside - bowl),
    )


def outlets(vents: Vents, throttle_angle: float = 0.0, ignition: float = 0.0) -> Openings:
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
    total = open_area(areas)
    return Openings._make(area / total for area in areas)

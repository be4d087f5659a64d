"""The parts of the circuits that are more than an opening, in plain floats.

They take sections of a rig whose entries are numbers, not arrays. Each equation is that of the
function it names; a test holds the two together.
"""

from math import copysign, log10, pi, sqrt
from typing import Any

from fuelcircuits.physics.circuits.high_speed import HOLE_DISCHARGE
from fuelcircuits.physics.circuits.power import THINNEST

__all__ = ["plain_holes", "plain_jet", "plain_ring", "plain_rod", "plain_valve"]


def plain_valve(low: Any, vacuum: float) -> float:
    """Return the share of the bleed valve's lift [1]: `low_speed.valve_lift`."""
    free = _smooth((vacuum - low.valve_opening) / low.valve_range)
    return float(max(min(free, low.valve_most), low.valve_least))


def plain_rod(rod: Any, vacuum: float) -> float:
    """Return the rod's diameter in the jet [m]: `power.rod_lift` and `power.rod_diameter`."""
    push = rod.spring_force - 0.25 * pi * rod.piston_bore**2 * vacuum
    lift = max(push / (rod.spring_rate * rod.travel), rod.least_lift)
    lift = min(lift, rod.most_lift, 1.0)
    first = _smooth((lift - rod.first_edge) / rod.taper + 0.5)
    second = _smooth((lift - rod.second_edge) / rod.taper + 0.5)
    thinned = (rod.lean_step - rod.middle_step) * first
    return float(rod.lean_step - thinned - (rod.middle_step - rod.rich_step) * second)


def plain_ring(bore: float, rod: float) -> tuple[float, float]:
    """Return area [m2] and hydraulic diameter [m] of a jet: `power.jet_area`, `power.jet_gap`."""
    gap = max(bore - rod, THINNEST)
    return 0.25 * pi * gap * (2.0 * bore - gap), gap


def plain_jet(
    ring: tuple[float, float],
    coefficients: tuple[float, float],
    drop: float,
    density: float,
    viscosity: float,
) -> float:
    """Return the fuel through a jet [kg/s]: `high_speed.jet_flow`."""
    (area, gap), (slender, ultimate) = ring, coefficients
    flux = sqrt(2.0 * density * abs(drop))
    reynolds = gap * flux / viscosity
    bend = log10(0.00015 * max(reynolds, 1e-100))
    steady = 1.0 / ultimate - 0.005 * slender / (1.0 + 7.5 * bend * bend)
    coefficient = reynolds / (reynolds * steady + 20.0 * (1.0 + 2.25 * slender))
    return copysign(coefficient * area * flux, drop)


def plain_holes(bore: float, depths: list[float], drop: float, weight: float, air: float) -> float:
    """Return the air through the well's bleed holes [kg/s]: `high_speed.hole_flow`.

    Parameters
    ----------
    bore, depths
        Of the holes [m].
    drop
        Pressure in the tube less that in the well [Pa].
    weight
        Of the fuel [N/m3].
    air
        Density of the air in the tube [kg/m3].
    """
    height, open_share = weight * bore, 0.0
    for depth in depths:
        clear = drop - weight * depth
        if clear > 0.0:
            beyond = max(clear - height, 0.0)
            open_share += clear * sqrt(clear) - beyond * sqrt(beyond)
    share = open_share / (1.5 * height)
    return HOLE_DISCHARGE * 0.25 * pi * bore**2 * sqrt(2.0 * air) * share


def _smooth(stage: float) -> float:
    """Return a cubic step from 0 at 0 to 1 at 1."""
    share = min(max(stage, 0.0), 1.0)
    return share * share * (3.0 - 2.0 * share)

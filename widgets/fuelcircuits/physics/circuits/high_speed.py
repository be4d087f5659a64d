"""The high-speed circuit's parts: main jet, main well with its bleed holes, nozzle.

Fuel passes the main jet into the well and leaves by the nozzle, whose lip stands a little above
the fuel level and opens in the booster venturi. In an air-bled well the main air bleed feeds
air from the air horn into a tube in the well; holes along the tube let it into the fuel. With
a fixed bleed area that would lower the fuel by a near-constant share; what flattens the mixture
curve is that the level in the well falls as the flow grows, and uncovers one hole after another.
A plain-fuel nozzle has no bleed.

Well pressures in this package are those at the height of the set fuel level.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import sqrt

from fuelcircuits.physics.entry import Section, entry
from fuelcircuits.physics.numerics.interpolation import linspace
from fuelcircuits.physics.openings.orifice import ultimate_coefficient, viscous_coefficient
from fuelcircuits.physics.openings.two_phase import bore_area

__all__ = [
    "GRAVITY",
    "HOLE_DISCHARGE",
    "HighSpeed",
    "hole_depths",
    "hole_flow",
    "jet_coefficients",
    "jet_flow",
    "level_drop",
]

GRAVITY = 9.80665
"""Standard acceleration of free fall [m/s2]; ISO 80000-3."""
HOLE_DISCHARGE = 0.65
"""Discharge coefficient of a hole through a thin tube wall [1] (sharp-edged orifice)."""
_LONGEST = 10.0  # [1], length over diameter up to which the jet's relation holds


@dataclass(frozen=True)
class HighSpeed(Section):
    """One barrel's high-speed circuit (dimensions invented for each rig)."""

    jet_bore: float = entry("m", 0.05e-3, 4e-3, "bore of the main jet")
    jet_length: float = entry("m", 0.1e-3, 20e-3, "length of the main jet")
    lip: float = entry("m", 0, 30e-3, "height of the nozzle's lip above the set fuel level")
    nozzle_bore: float = entry("m", 0.1e-3, 8e-3, "bore of the nozzle")
    well_depth: float = entry("m", 5e-3, 80e-3, "depth of the well below the set fuel level")
    air_bleed_bore: float = entry("m", 0, 4e-3, "bore of the main air bleed; 0 for none", 0.0)
    hole_bore: float = entry("m", 0.05e-3, 3e-3, "bore of each bleed hole in the well", 0.8e-3)
    hole_count: float = entry("1", 1, 40, "number of bleed holes, evenly spaced in height", 1.0)
    first_hole: float = entry(
        "m", 0, 60e-3, "depth of the highest bleed hole below the set fuel level", 5e-3
    )
    last_hole: float = entry(
        "m", 0, 60e-3, "depth of the lowest bleed hole below the set fuel level", 20e-3
    )
    well_area: float = entry(
        "m^2", 0, 1e-4, "area of the fuel round the bleed tube, which its level lays bare", 2e-6
    )


def level_drop(tube_pressure: float, well_pressure: float, fuel_density: float) -> float:
    r"""Return how far the fuel in the bleed tube stands below the set fuel level.

    .. math:: h = \frac{p_a - p_w}{\rho_f g}

    Parameters
    ----------
    tube_pressure
        Pressure p_a of the air in the tube [Pa].
    well_pressure
        Pressure p_w in the well, at the height of the set level [Pa].
    fuel_density
        Density of the fuel [kg/m3].

    Returns
    -------
    Depth [m]; negative when the fuel stands above the set level.

    References
    ----------
    First principles: hydrostatics.
    """
    return (tube_pressure - well_pressure) / (fuel_density * GRAVITY)


def hole_depths(circuit: HighSpeed) -> list[float]:
    """Return the depth of each bleed hole below the set level [m], from the first to the last."""
    count, first = int(circuit.hole_count), circuit.first_hole
    return linspace(first, circuit.last_hole, count) if count > 1 else [first]


def hole_flow(
    circuit: HighSpeed,
    tube_pressure: float,
    well_pressure: float,
    fuel_density: float,
    air_density: float,
    *,
    depths: Sequence[float] | None = None,
) -> float:
    r"""Return the air that enters the fuel by the bleed holes that stand clear of it.

    .. math::
        \dot m = C A \sqrt{2 \rho_a} \sum_i \frac{2}{3 D}
                  \left([x_i]_0^{3/2} - [x_i - D]_0^{3/2}\right), \qquad
        x_i = p_a - p_w - \rho_f g d_i, \quad D = \rho_f g b

    A hole with its top at the depth d is driven by what is left of the drop when the fuel has
    been pushed down to it; so the count of open holes, and the area, grow with the drop. While
    the surface crosses a hole of bore b the hole is a weir, as high and as large as the hole;
    far below it the bracket is :math:`\sqrt{x_i - D/2}`. The brackets are cut off at nought.

    Parameters
    ----------
    circuit
        The high-speed circuit.
    tube_pressure
        Pressure p_a of the air in the tube [Pa].
    well_pressure
        Pressure p_w in the well, at the height of the set level [Pa].
    fuel_density
        Density of the fuel [kg/m3].
    air_density
        Density of the air in the tube [kg/m3].
    depths
        What `hole_depths` gives for this circuit, if the caller has it at hand.

    Returns
    -------
    Air flow [kg/s], never negative: fuel that rises in the tube stands still there.

    References
    ----------
    First principles: hydrostatics and Bernoulli. Compressibility is left out; at the drops of
    a well (below 3 kPa) it changes a flow by less than 2 %.
    """
    weight, drop = fuel_density * GRAVITY, tube_pressure - well_pressure
    height, open_share = weight * circuit.hole_bore, 0.0
    for depth in hole_depths(circuit) if depths is None else depths:
        clear = drop - weight * depth
        if clear > 0.0:
            beyond = clear - height if clear > height else 0.0
            open_share += clear * sqrt(clear) - beyond * sqrt(beyond)
    flux = sqrt(2.0 * air_density) * open_share / (1.5 * height)
    return HOLE_DISCHARGE * bore_area(circuit.hole_bore) * flux


def jet_flow(
    area: float,
    gap: float,
    coefficients: tuple[float, float],
    pressure_drop: float,
    fuel_density: float,
    *,
    viscosity: float,
) -> float:
    r"""Return the signed fuel flow through a metering jet, with or without a rod in it.

    .. math:: \dot m = \pm C(Re, L/g)\, A \sqrt{2 \rho |\Delta p|}, \qquad
              Re = \frac{g \sqrt{2 \rho |\Delta p|}}{\mu}

    Parameters
    ----------
    area
        Open area A [m2].
    gap
        Hydraulic diameter g [m]: the bore of a bare jet, bore less rod with a rod in it.
    coefficients
        Length over hydraulic diameter L/g [1] and ultimate discharge coefficient [1]; see
        `jet_coefficients`.
    pressure_drop
        Pressure before less pressure behind [Pa], either sign.
    fuel_density
        Density of the fuel [kg/m3].
    viscosity
        Dynamic viscosity of the fuel [Pa s].

    Returns
    -------
    Fuel flow [kg/s], with the sign of the drop; proportional to the drop near nought.

    References
    ----------
    First principles with the coefficient of `fuelcircuits.physics.openings.orifice`. For a ring
    the hydraulic diameter stands for the bore, in Reynolds number and slenderness alike: the
    usual stand-in (handbooks), and a doubt. Nobody is known to have measured it for a rod in a
    metering jet, and a rod off its middle passes more in slow flow.
    """
    flux = sqrt(2.0 * fuel_density * abs(pressure_drop))
    flow = viscous_coefficient(gap * flux / viscosity, *coefficients) * area * flux
    return flow if pressure_drop > 0.0 else -flow


@lru_cache(maxsize=256)
def jet_coefficients(bore: float, length: float) -> tuple[float, float]:
    """Return a jet's length over bore [1] and its discharge coefficient at high Reynolds number.

    Parameters
    ----------
    bore, length
        Of the jet, or of the gap round its rod [m]; a length beyond ten bores counts as ten.

    References
    ----------
    `fuelcircuits.physics.openings.orifice.ultimate_coefficient`.
    """
    slender = min(length / bore, _LONGEST)
    return slender, ultimate_coefficient(slender)

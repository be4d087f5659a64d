"""The two jets of a barrel: what they pass of fuel, and of air once the well has run empty."""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.physics.circuits import power
from fuelcircuits.physics.circuits.high_speed import GRAVITY, jet_flow
from fuelcircuits.physics.network.circuit_pressures import Pressures
from fuelcircuits.physics.network.problem import Points, Problem
from fuelcircuits.physics.network.stream import TRACE, Stream
from fuelcircuits.physics.openings.gas_flow import SMOOTHING
from fuelcircuits.physics.openings.two_phase import specific_volume

__all__ = ["Jets", "fuel_jets"]

Floats = NDArray[np.float64]


class Jets(NamedTuple):
    """Flows of one barrel's jets [kg/s]."""

    main: Floats  # fuel, bowl to well
    back: Floats  # air, well to bowl
    low_speed: Stream  # well to mix
    power_share: Floats  # of the main jet's flow, what the rod has let through [1]


def fuel_jets(problem: Problem, p: Pressures, points: Points, backflow: Floats) -> Jets:
    r"""Return what main and low-speed jet pass, and what of the first the rod lets by.

    Where the well's pressure drives the main jet backwards the well has run empty, for nothing
    else could have pushed its fuel out, and air follows, under the same drop:

    .. math:: \dot m_a = \sqrt{\rho_a / \rho_f}\; \dot m_f

    Within 1 Pa of standstill fuel still goes a little to and fro.

    Parameters
    ----------
    problem, p, points
        The network, its pressures and points.
    backflow
        Air that has entered the well from the booster [kg/s].

    References
    ----------
    `fuelcircuits.physics.circuits.high_speed.jet_flow` and `fuelcircuits.physics.circuits.power`.
    """
    high, low, rod = problem.high, problem.low, problem.rod
    weight = GRAVITY * points.fuel_density
    thickness: Floats | float = 0.0
    if rod is not None:
        lift = power.rod_lift(rod, points.pressure - p.manifold)
        thickness = np.asarray(power.rod_diameter(rod, lift))
    drop = np.empty((2, *p.well.shape))
    size, gap = np.empty_like(drop), np.empty_like(drop)
    drop[0] = p.bowl + weight * points.bowl_level - p.well
    drop[1] = np.maximum(p.well - weight * low.lift - p.mix, 0.0)
    gap[0], gap[1] = power.jet_gap(high.jet_bore, thickness), low.jet_bore
    size[0], size[1] = power.jet_area(high.jet_bore, thickness), problem.parts.idle_jet
    coefficients = problem.parts.slender, problem.parts.ultimate
    main, lifted = jet_flow(
        size, gap, coefficients, drop, points.fuel_density, viscosity=points.viscosity
    )
    main, back = _emptied(p, points, main, drop[0])
    share = 1.0 - problem.parts.lean / size[0]
    return Jets(main, back, _lifted(p, points, main, lifted, backflow), share)


def _emptied(p: Pressures, points: Points, main: Floats, drop: Floats) -> tuple[Floats, Floats]:
    """Return the fuel that the main jet passes, and the air where its drop is backwards."""
    back = np.maximum(-main, 0.0)
    if not back.any():
        return main, back
    still = (SMOOTHING**2 / (SMOOTHING**2 + drop * drop)) ** 2
    density = p.well / (points.gas_constant * points.temperature)
    light = np.sqrt(density / points.fuel_density)
    return np.where(drop < 0.0, still * main, main), (1.0 - still) * light * back


def _lifted(p: Pressures, points: Points, main: Floats, lifted: Floats, backflow: Floats) -> Stream:
    """Return what the low-speed jet lifts: fuel, or fuel and air once the well has run empty."""
    if not backflow.any():
        return Stream(np.zeros_like(lifted), lifted)
    supply = np.maximum(main, 0.0) + TRACE
    share = supply / (supply + backflow)
    density = points.fuel_density
    volume = specific_volume(share, p.well, points.temperature, density, points.gas_constant)
    total = lifted / np.sqrt(volume * density)
    return Stream((1.0 - share) * total, share * total)

"""The two jets of a barrel: what they pass of fuel, and of air once the well has run empty."""

from math import sqrt

from fuelcircuits.physics.circuits.high_speed import jet_coefficients, jet_flow
from fuelcircuits.physics.circuits.power import jet_area, jet_gap, rod_diameter, rod_lift
from fuelcircuits.physics.network.openings import volume
from fuelcircuits.physics.network.pressures import Pressures
from fuelcircuits.physics.network.problem import Barrel, Problem
from fuelcircuits.physics.network.stream import TRACE, Stream
from fuelcircuits.physics.openings.gas_flow import SMOOTHING

__all__ = ["fuel_jets"]


def fuel_jets(
    of: Problem, barrel: Barrel, p: Pressures[float], backflow: float
) -> tuple[float, float, Stream[float], float]:
    """Return what the two jets pass.

    Parameters
    ----------
    of, barrel, p
        The network, the barrel, and its pressures.
    backflow
        Air that has entered the well from the booster [kg/s].

    Returns
    -------
    main, back
        Fuel from bowl to well by the main jet, and air from well to bowl [kg/s].
    lifted
        What the low-speed jet brings from the well to the mix [kg/s].
    power_share
        Of the main jet's flow, what the rod has let through [1].

    References
    ----------
    `fuelcircuits.physics.circuits.high_speed.jet_flow` and `fuelcircuits.physics.circuits.power`.
    """
    bore, rod = barrel.high.jet_bore, barrel.rod
    thickness = 0.0 if rod is None else rod_diameter(rod, rod_lift(rod, of.pressure - p.manifold))
    area, gap = jet_area(bore, thickness), jet_gap(bore, thickness)
    shape = jet_coefficients(gap, barrel.high.jet_length)
    drop = p.bowl + of.head - p.well
    main = jet_flow(area, gap, shape, drop, of.density, viscosity=of.viscosity)
    main, back = (main, 0.0) if drop >= 0.0 else _emptied(of, p.well, main, drop)
    lifted = _lifted(of, barrel, p, backflow and max(main, 0.0) + TRACE, backflow)
    return main, back, lifted, 1.0 - barrel.lean / area


def _emptied(of: Problem, well: float, main: float, drop: float) -> tuple[float, float]:
    r"""Return the fuel and the air that a main jet passes whose drop is backwards.

    The well has run empty, for nothing else could have pushed its fuel out, and air follows,
    under the same drop:

    .. math:: \dot m_a = \sqrt{\rho_a / \rho_f}\; \dot m_f

    Within 1 Pa of standstill fuel still goes a little to and fro.
    """
    still = (SMOOTHING**2 / (SMOOTHING**2 + drop * drop)) ** 2
    light = sqrt(well / of.gas / of.density)
    return still * main, (1.0 - still) * light * -main


def _lifted(
    of: Problem, barrel: Barrel, p: Pressures[float], supply: float, backflow: float
) -> Stream[float]:
    """Return what the low-speed jet lifts: fuel, or fuel and air once the well has run empty."""
    low = barrel.low
    drop = p.well - of.weight * low.lift - p.mix
    if drop <= 0.0:
        return Stream(0.0, 0.0)
    lifted = jet_flow(
        barrel.idle_jet, low.jet_bore, barrel.lifting, drop, of.density, viscosity=of.viscosity
    )
    if not backflow:
        return Stream(0.0, lifted)
    share = supply / (supply + backflow)
    total = lifted / sqrt(volume(of, share, p.well) * of.density)
    return Stream((1.0 - share) * total, share * total)

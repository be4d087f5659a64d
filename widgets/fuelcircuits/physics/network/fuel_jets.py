"""The two jets of a barrel: what they pass of fuel, and of air once the well has run empty."""

from functools import lru_cache
from math import sqrt

from fuelcircuits.physics.circuits.high_speed import jet_coefficients, jet_flow
from fuelcircuits.physics.circuits.power import jet_area, jet_gap, rod_diameter, rod_lift
from fuelcircuits.physics.network.openings import volume
from fuelcircuits.physics.network.pressures import Met
from fuelcircuits.physics.network.problem import Barrel, Problem
from fuelcircuits.physics.network.stream import TRACE, Pair
from fuelcircuits.physics.openings.gas_flow import SMOOTHING

__all__ = ["fuel_jets"]


def fuel_jets(
    of: Problem, barrel: Barrel, met: Met, backflow: float
) -> tuple[float, float, Pair, float]:
    """Return what the two jets pass.

    Parameters
    ----------
    of, barrel, met
        The network, the barrel, and the pressures that it meets.
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
    _, _, manifold, bowl, _, well, _, mix, _, _, _ = met
    rod, drop, back = barrel.rod, bowl + of.head - well, 0.0
    thickness = 0.0 if rod is None else rod_diameter(rod, rod_lift(rod, of.pressure - manifold))
    area, gap, shape = _ring(barrel.high.jet_bore, barrel.high.jet_length, thickness)
    main = jet_flow(area, gap, shape, drop, of.density, viscosity=of.viscosity)
    if drop < 0.0:
        main, back = _emptied(of, well, main, drop)
    lifting = well - of.weight * barrel.lift - mix
    fuel = _lifted(of, barrel, lifting) if lifting > 0.0 else 0.0
    lifted = _foamed(of, well, fuel, main, backflow) if backflow else (0.0, fuel)
    return main, back, lifted, 1.0 - barrel.lean / area


@lru_cache(maxsize=64)
def _ring(bore: float, length: float, rod: float) -> tuple[float, float, tuple[float, float]]:
    """Return area, hydraulic diameter and coefficients of a jet with a rod in it.

    The rod mostly stands still, down or up.
    """
    gap = jet_gap(bore, rod)
    return jet_area(bore, rod), gap, jet_coefficients(gap, length)


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


def _lifted(of: Problem, barrel: Barrel, drop: float) -> float:
    """Return the fuel that the low-speed jet lifts out of a full well."""
    bore, shape = barrel.low.jet_bore, barrel.lifting
    return jet_flow(barrel.idle_jet, bore, shape, drop, of.density, viscosity=of.viscosity)


def _foamed(of: Problem, well: float, lifted: float, supply: float, backflow: float) -> Pair:
    """Return what the low-speed jet lifts instead once the well has run empty."""
    fuel = max(supply, 0.0) + TRACE
    share = fuel / (fuel + backflow)
    total = lifted / sqrt(volume(of, share, well) * of.density)
    return (1.0 - share) * total, share * total

"""First pass through the openings: what they would pass if only air passed them.

What this gives as leaving a mixture is computed again, with what that holds. Standing columns
of fuel hold: air runs back through the low-speed jet only when it has pushed the fuel out of
the foot of its tube, and into the well from the booster only when the well is empty. Each of
these mouths opens little by little while the fuel's surface crosses it.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.physics.circuits.high_speed import GRAVITY
from fuelcircuits.physics.network.circuit_pressures import Pressures
from fuelcircuits.physics.network.port_openings import COMMON, EACH, SHARED, ends, through
from fuelcircuits.physics.network.problem import Points, Problem

__all__ = ["MOUTH", "AirPass", "air_pass", "mouth"]

Floats = NDArray[np.float64]

MOUTH = 2.5e-3
"""Height over which nozzle lip, tube foot and well floor open as the fuel crosses them [m]."""


class AirPass(NamedTuple):
    """Flows [kg/s]: the common ones, then a row for each barrel told apart."""

    common: Floats  # (7, copies, points)
    venturi: Floats
    main_bleed: Floats
    bypass: Floats
    idle_air: Floats
    throttle: Floats
    pull_over: Floats
    backflow: Floats
    ports: Floats  # slot above, valve, slot below, screw: (4, barrels, copies, points)


def mouth(drive: Floats, weight: Floats) -> Floats:
    """Return the share of a mouth that is open: a weir until the surface has crossed it.

    Parameters
    ----------
    drive
        Pressure that pushes the surface past the mouth [Pa], not negative.
    weight
        Weight of the fuel [N/m3].
    """
    return np.asarray(np.minimum(drive / (weight * MOUTH), 1.0))


def air_pass(problem: Problem, p: Pressures, points: Points, lift: Floats) -> AirPass:
    """Return the flows of air.

    Parameters
    ----------
    problem, p, points
        The network, its pressures and points.
    lift
        Share of the bleed valve's lift [1].

    References
    ----------
    `fuelcircuits.physics.network.port_openings`.
    """
    barrels, weight = problem.barrels, GRAVITY * points.fuel_density
    foot = np.minimum(p.well + weight * problem.low.tube_depth, p.mix)
    bottom = np.minimum(p.well + weight * problem.high.well_depth, p.booster)
    rows = np.empty((len(SHARED) + len(EACH) * barrels, *p.horn.shape))
    rows[0], rows[1] = points.pressure, points.canister
    for row, value in enumerate(p[:4], 2):
        rows[row] = value
    for place, value in enumerate((*p[4:], foot, bottom)):
        start = len(SHARED) + place * barrels
        rows[start : start + barrels] = value
    first, second = ends(barrels)
    flow = points.areas * through(points, rows[first], rows[second])
    each = flow[COMMON:].reshape(11, barrels, *p.horn.shape)
    each[5] *= mouth(p.mix - foot, weight)
    each[6] *= mouth(p.booster - bottom, weight)
    each[8] *= lift
    return AirPass._make([flow[:COMMON], *each[:7], each[7:]])

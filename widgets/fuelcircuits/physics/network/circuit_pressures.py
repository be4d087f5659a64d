"""The pressures of the network, by name."""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from fuelcircuits.physics.network.problem import Problem

__all__ = ["Pressures", "pressures"]

Floats = NDArray[np.float64]


class Pressures(NamedTuple):
    """Absolute pressures [Pa]: (copies, points) where shared, else barrels before them."""

    horn: Floats
    choke: Floats  # below its plate
    manifold: Floats
    bowl: Floats
    venturi: Floats  # throat of the main venturi
    well: Floats  # at the height of the set fuel level
    tube: Floats  # air behind the well's bleed holes
    mix: Floats  # where fuel and air of the low-speed circuit meet
    chamber: Floats  # behind the idle ports
    booster: Floats  # throat of the booster
    throttle: Floats  # above the throttle plate


def pressures(problem: Problem, unknowns: Floats) -> Pressures:
    """Return the unknown pressures by name, with the two that follow from them.

    Parameters
    ----------
    problem
        The network.
    unknowns
        Pressures [Pa], shape (unknowns, copies, points), in the order of `Pressures`.

    References
    ----------
    Booster and recovery: `fuelcircuits.physics.engine.venturi`.
    """
    each = unknowns[4 : 4 + 5 * problem.barrels]
    barrel = each.reshape(5, problem.barrels, *unknowns.shape[1:])
    choke, venturi = unknowns[1], barrel[0]
    booster = choke * (venturi / choke) ** problem.gain
    lost = (1.0 - problem.air_path.venturi_recovery) * (choke - venturi)
    return Pressures._make([*unknowns[:4], *barrel, booster, choke - lost])

"""The pressures of the network, by name."""

from collections.abc import Sequence
from typing import Generic, NamedTuple

from fuelcircuits.physics.network.problem import Problem
from fuelcircuits.physics.network.stream import Each

__all__ = ["EACH", "SHARED", "Met", "Pressures", "pressures"]

SHARED = ("horn pressure", "pressure below the choke", "manifold pressure", "bowl pressure")
"""Unknowns that are there once."""
EACH = ("venturi pressure", "well pressure", "tube pressure", "mix pressure", "chamber pressure")
"""Unknowns of every barrel told apart, one barrel after the other."""
Met = tuple[float, float, float, float, float, float, float, float, float, float, float]
"""What one barrel meets, in the order of `Pressures`, while it is being balanced."""


class Pressures(NamedTuple, Generic[Each]):
    """Absolute pressures [Pa]: four that the barrels share, then those of a barrel."""

    horn: float
    choke: float  # below its plate
    manifold: float
    bowl: float
    venturi: Each  # throat of the main venturi
    well: Each  # at the height of the set fuel level
    tube: Each  # air behind the well's bleed holes
    mix: Each  # where fuel and air of the low-speed circuit meet
    chamber: Each  # behind the idle ports
    booster: Each  # throat of the booster
    throttle: Each  # above the throttle plate


def pressures(of: Problem, unknowns: Sequence[float], barrel: int) -> Met:
    """Return the unknown pressures as one barrel meets them, with the two that follow.

    Parameters
    ----------
    of
        The network.
    unknowns
        Pressures [Pa]: `SHARED`, then `EACH` for one barrel after the other.
    barrel
        Which of the barrels told apart. One that a link opens late has no choke plate: below
        where it would be, the pressure is the horn's.

    References
    ----------
    Booster and recovery: `fuelcircuits.physics.engine.venturi`.
    """
    own, first = of.barrels[barrel], 4 + 5 * barrel
    horn, choke, manifold, bowl = unknowns[:4]
    venturi, well, tube, mix, chamber = unknowns[first : first + 5]
    if not own.choked:
        choke = horn
    booster = choke * (venturi / choke) ** own.gain
    throttle = choke - own.lost * (choke - venturi)
    return horn, choke, manifold, bowl, venturi, well, tube, mix, chamber, booster, throttle

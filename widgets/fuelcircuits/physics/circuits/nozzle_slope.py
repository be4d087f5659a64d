"""Where a sloping nozzle has its highest point, and what follows when the car is parked.

Up or down, fuel must first be lifted to the nozzle's highest point, its lip. A nozzle that
slopes up from the well has its lip at its mouth in the booster. One that slopes down has it at
its inner end, nearer to the bowl, and what has passed it runs out by itself.
"""

from collections.abc import Mapping
from math import atan2

from fuelcircuits.physics.circuits.high_speed import GRAVITY, HighSpeed
from fuelcircuits.physics.openings.two_phase import bore_area

__all__ = ["SLOPES", "drip_angle", "run_out", "starting_depression"]

SLOPES: Mapping[str, str] = {"up": "up to its mouth", "down": "down to its mouth"}
INNER, MOUTH = 32e-3, 76e-3
"""Way across from the bowl's middle to the nozzle's inner end and to its mouth [m] (invented)."""


def starting_depression(circuit: HighSpeed, fuel_density: float) -> float:
    r"""Return the depression at which the first drop passes the lip [Pa].

    .. math:: \Delta p = \rho g h

    Parameters
    ----------
    circuit
        Height h of the lip over the set level.
    fuel_density
        Density of the fuel [kg/m3].

    References
    ----------
    First principles: hydrostatics.
    """
    return fuel_density * GRAVITY * circuit.lip


def drip_angle(circuit: HighSpeed, slope: str) -> float:
    r"""Return how steeply a car may stand, barrel low, before fuel runs over the lip [rad].

    .. math:: \tan \alpha = \frac hd

    The fuel in a full bowl stays level and turns about the bowl's middle. On the way d across
    to the lip it gains on the carburettor what the lip stands above the set level.

    Parameters
    ----------
    circuit
        Height h of the lip over the set level.
    slope
        One of `SLOPES`: which way the nozzle slopes.

    References
    ----------
    First principles.
    """
    return atan2(circuit.lip, MOUTH if slope == "up" else INNER)


def run_out(circuit: HighSpeed, slope: str, fuel_density: float) -> float:
    """Return how much fuel at most stands past the lip and runs out after the stop [kg].

    Parameters
    ----------
    circuit
        Bore of the nozzle.
    slope
        One of `SLOPES`.
    fuel_density
        Density of the fuel [kg/m3].

    References
    ----------
    First principles: a nozzle that is full from its lip to its mouth.
    """
    length = 0.0 if slope == "up" else MOUTH - INNER
    return fuel_density * bore_area(circuit.nozzle_bore) * length

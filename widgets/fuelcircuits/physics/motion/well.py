"""The fuel in the wells of air-bled nozzles: a small store that a sudden pull draws on.

Air in the bleed tube pushes the fuel down past the holes. While it goes down, the fuel from
round the tube leaves by the nozzle on top of what the jet brings; when the pull ends the well
fills up again, and the nozzle gives that much less.
"""

from collections.abc import Sequence
from typing import NamedTuple

from fuelcircuits.physics.circuits.high_speed import HighSpeed, level_drop
from fuelcircuits.physics.network.state import State

__all__ = ["SETTLING", "WellStep", "well_depths", "well_step"]

SETTLING = 0.1
"""Time constant with which the level in a well follows [s] (fitted, no source)."""


def well_depths(wells: Sequence[HighSpeed], state: State, density: float) -> tuple[float, ...]:
    """Return how far the fuel in the tube of each barrel's well is pushed down for good [m].

    Parameters
    ----------
    wells
        The circuit of each barrel told apart.
    state
        The network.
    density
        Density of the fuel [kg/m3].

    References
    ----------
    `fuelcircuits.physics.circuits.high_speed.level_drop`; a well without a bleed stands still.
    """
    pairs = zip(wells, state.pressures.tube, state.pressures.well, strict=True)
    return tuple(
        min(max(level_drop(tube, well, density), 0.0), each.last_hole)
        if each.air_bleed_bore > 0.0
        else 0.0
        for each, tube, well in pairs
    )


class WellStep(NamedTuple):
    """A well after a step, and its flows meanwhile."""

    depth: float  # m
    extra: float  # kg/s that the nozzle gives beyond the network; it takes back what it can
    refill: float  # kg/s that the jet brings for the rest


def well_step(
    circuit: HighSpeed,
    depth: float,
    settled: float,
    nozzle: float,
    *,
    density: float,
    duration: float,
) -> WellStep:
    r"""Return a well after a step.

    .. math:: \frac{dh}{dt} = \frac{h_s - h}{\tau}, \qquad
              \dot m_{extra} = \rho A_w \frac{dh}{dt}

    Parameters
    ----------
    circuit
        The barrel's circuit; A\ :sub:`w` is its `well_area`.
    depth, settled
        Depth h at the start, and that at which the network leaves it [m].
    nozzle
        Fuel that the nozzle gives by the network [kg/s]; a well that fills up takes from it
        first, and the rest comes by the main jet.
    density
        Density of the fuel [kg/m3].
    duration
        Length of the step [s].

    Returns
    -------
    WellStep
        Depth and flows.

    Notes
    -----
    First principles for what the store holds, by Euler's implicit rule; the lag is this
    package's, and stands for the fuel's inertia and for what the holes let through.
    """
    after = (depth + duration / SETTLING * settled) / (1.0 + duration / SETTLING)
    leaving = density * circuit.well_area * (after - depth) / duration
    extra = max(leaving, -max(nozzle, 0.0))
    return WellStep(after, extra, extra - leaving)

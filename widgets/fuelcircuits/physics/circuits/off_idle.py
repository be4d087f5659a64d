"""What takes over between idle and the nozzle: the slot-shaped idle port and the bleed valve.

Both belong to the low-speed circuit, whose entries on a card they share. Opened, the throttle
plate uncovers more of the slot to the vacuum below its edge; the valve lets in air once that
vacuum pulls too much.
"""

from math import cos, sin
from typing import NamedTuple

from fuelcircuits.physics.circuits.low_speed import LowSpeed
from fuelcircuits.physics.numerics.corners import rounded, smooth_step

__all__ = ["SlotAreas", "slot_areas", "valve_lift"]


class SlotAreas(NamedTuple):
    """The slot-shaped idle port on either side of the edge of the throttle plate [m2]."""

    below: float
    above: float


def slot_areas(
    circuit: LowSpeed, throttle_angle: float, bore: float, closed_angle: float = 0.0
) -> SlotAreas:
    r"""Return the open areas of the idle port below and above the edge of the plate.

    The plate just fills the bore D at its closed angle, so its tip stands at the height

    .. math:: z = \frac{D}{2} \frac{\sin\theta}{\cos\theta_0}

    above the shaft's plane. Its edge, of thickness t, hides the slot from z - t/2 to z + t/2:

    .. math::
        A_{below} = b\,[z - \tfrac t2 - s]_0^h, \qquad
        A_{above} = b\,[s + h - z - \tfrac t2]_0^h

    with s the foot of the slot, h its height, b its width and the brackets cut off at 0 and h,
    their corners rounded over t/4.

    Parameters
    ----------
    circuit
        The low-speed circuit.
    throttle_angle
        Plate angle from the plane across the bore [rad], 0 to pi/2.
    bore
        Throttle bore D [m].
    closed_angle
        Plate angle at which the plate fills the bore [rad].

    Returns
    -------
    SlotAreas
        Areas [m2].

    References
    ----------
    First principles.
    """
    tip = 0.5 * bore * sin(throttle_angle) / cos(closed_angle) - circuit.slot_start
    half, corner, height = 0.5 * circuit.plate_edge, 0.25 * circuit.plate_edge, circuit.slot_height
    below, above = tip - half, height - tip - half
    return SlotAreas(
        circuit.slot_width * (rounded(below, corner) - rounded(below - height, corner)),
        circuit.slot_width * (rounded(above, corner) - rounded(above - height, corner)),
    )


def valve_lift(circuit: LowSpeed, vacuum: float) -> float:
    r"""Return how far the off-idle bleed valve's ball is off its seat, as a share of its lift.

    .. math:: x = 3 u^2 - 2 u^3, \qquad u = \left[\frac{\Delta - \Delta_o}{\Delta_r}\right]_0^1

    The spring holds the ball to its seat until the vacuum reaches :math:`\Delta_o`; the ball
    meets its stop :math:`\Delta_r` later.

    Parameters
    ----------
    circuit
        The low-speed circuit.
    vacuum
        Pressure below the choke plate, which feeds the valve, less that of the idle-port
        chamber [Pa].

    Returns
    -------
    Share of the lift [1], 0 to 1, between the shares at which the ball sticks.

    References
    ----------
    Spring balance: first principles, with the corners rounded.
    """
    free = smooth_step((vacuum - circuit.valve_opening) / circuit.valve_range)
    held = circuit.valve_most if free > circuit.valve_most else free
    return circuit.valve_least if held < circuit.valve_least else held

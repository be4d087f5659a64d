"""The low-speed circuit's parts: jet, air bleeds, economizer, slot, mixture screw, bleed valve.

Fuel that has passed the main jet is lifted from the well through the low-speed jet. Air joins
it at the by-pass, from the bore below the choke plate, and at the idle air bleed, from the air
horn. The mixture falls through the economizer into the idle-port chamber, and leaves that by
the mixture screw's port and by the part of the slot-shaped idle port that lies below the edge
of the throttle plate; the part above the edge bleeds air in. This module knows the geometry;
which way anything flows, and how much, is for `network` to find.
"""

from dataclasses import dataclass
from typing import NamedTuple, TypeAlias

import numpy as np
import numpy.typing as npt

from fuelcircuits.errors import RangeError
from fuelcircuits.physics.entry import Section, entry
from fuelcircuits.physics.openings.two_phase import bore_area

__all__ = [
    "LowSpeed",
    "SlotAreas",
    "idle_air_area",
    "needle_area",
    "port_area",
    "rounded",
    "slot_areas",
    "turn",
    "valve_area",
    "valve_lift",
]

Numbers: TypeAlias = float | npt.NDArray[np.float64]


@dataclass(frozen=True)
class LowSpeed(Section):
    """One barrel's low-speed circuit (dimensions invented for each rig)."""

    jet_bore: Numbers = entry("m", 0.05e-3, 2e-3, "bore of the low-speed jet")
    jet_length: Numbers = entry("m", 0.05e-3, 20e-3, "length of the low-speed jet")
    lift: Numbers = entry("m", 0, 50e-3, "height of the by-pass above the set fuel level")
    tube_depth: Numbers = entry("m", 1e-3, 60e-3, "depth of the jet's foot below the set level")
    bypass_bore: Numbers = entry("m", 0, 4e-3, "bore of the by-pass, air from below the choke")
    air_bleed_bore: Numbers = entry("m", 0, 4e-3, "bore of the idle air bleed, from the air horn")
    economizer_bore: Numbers = entry("m", 0.05e-3, 4e-3, "bore of the economizer")
    fall: Numbers = entry("m", 0, 0.1, "height of the by-pass above the idle-port chamber")
    slot_width: Numbers = entry("m", 0, 3e-3, "width of the slot, across the bore")
    slot_height: Numbers = entry("m", 0.1e-3, 10e-3, "height of the slot, along the bore")
    slot_start: Numbers = entry(
        "m", -5e-3, 15e-3, "height of the slot's foot above the throttle shaft's plane"
    )
    plate_edge: Numbers = entry("m", 0.05e-3, 3e-3, "thickness of the throttle plate's edge")
    seat_bore: Numbers = entry("m", 0.3e-3, 5e-3, "bore of the mixture screw's seat")
    needle_angle: Numbers = entry("rad", 0.05, 1.6, "included angle of the screw's needle")
    screw_pitch: Numbers = entry("m", 0.2e-3, 2e-3, "travel of the mixture screw in one turn")
    screw_turns: Numbers = entry("1", 0, 12, "turns off the seat as the screw is set", 2.0)
    fewest_turns: Numbers = entry("1", 0, 12, "turns off the seat at the limiter's inner stop", 0.0)
    most_turns: Numbers = entry("1", 0, 12, "turns off the seat at the limiter's outer stop", 12.0)
    restrictor_bore: Numbers = entry(
        "m", 0, 5e-3, "bore of a fixed restrictor in line with the screw; 0 for none", 0.0
    )
    screw_meters_air: Numbers = entry(
        "1", 0, 1, "1 where a left-hand screw sets the idle air instead of the mixture", 0.0
    )
    valve_bore: Numbers = entry("m", 0, 5e-3, "seat bore of the off-idle bleed valve", 0.0)
    valve_opening: Numbers = entry(
        "Pa", 200, 10e3, "vacuum at which the bleed valve's ball leaves its seat", 2200.0
    )
    valve_range: Numbers = entry(
        "Pa", 50, 10e3, "further vacuum that lifts the ball to its stop", 1000.0
    )
    valve_least: Numbers = entry("1", 0, 1, "share of the lift at which the ball sticks", 0.0)
    valve_most: Numbers = entry("1", 0, 1, "share of the lift the ball can reach", 1.0)
    enrichment: Numbers = entry(
        "1", 0, 1, "share of the idle air that cold-start enrichment can shut off", 0.0
    )

    def __post_init__(self) -> None:
        """Check every entry, and that the screw is set within its stops."""
        super().__post_init__()
        low, high = np.asarray(self.fewest_turns), np.asarray(self.most_turns)
        if not np.all((low <= self.screw_turns) & (self.screw_turns <= high)):
            raise RangeError(
                f"screw turns must be between the limiter's stops {low:g} and {high:g}, "
                f"got {self.screw_turns}"
            )


class SlotAreas(NamedTuple):
    """The slot-shaped idle port on either side of the edge of the throttle plate [m2]."""

    below: Numbers
    above: Numbers


def rounded(value: Numbers, width: Numbers) -> Numbers:
    r"""Return max(x, 0) with its corner rounded to a parabola over :math:`\pm w`.

    .. math:: f = 0 \;(x \le -w), \quad (x + w)^2 / 4w, \quad x \;(x \ge w)

    Parameters
    ----------
    value
        x, in any unit.
    width
        w, positive, in the same unit.

    Returns
    -------
    f in that unit; smooth to its first derivative.
    """
    inside = np.clip(value, -width, width) + width
    result: Numbers = np.where(value > width, value, inside * inside / (4.0 * width))
    return result


def slot_areas(
    circuit: LowSpeed, throttle_angle: Numbers, bore: Numbers, closed_angle: Numbers = 0.0
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
    tip = 0.5 * bore * np.sin(throttle_angle) / np.cos(closed_angle) - circuit.slot_start
    half, corner, height = 0.5 * circuit.plate_edge, 0.25 * circuit.plate_edge, circuit.slot_height
    below, above = tip - half, height - tip - half
    return SlotAreas(
        circuit.slot_width * (rounded(below, corner) - rounded(below - height, corner)),
        circuit.slot_width * (rounded(above, corner) - rounded(above - height, corner)),
    )


def needle_area(circuit: LowSpeed, turns: Numbers) -> Numbers:
    r"""Return the open area between the screw's conical needle and its seat.

    .. math::
        A_n = \pi s \sin\beta\,(d - s \sin\beta \cos\beta), \qquad
        A^{-2} = A_n^{-2} + (\pi d^2/4)^{-2}

    The ring between cone and seat lies in series with the seat's own bore. Beyond the lift
    at which the ring is widest the needle has left the seat and the ring stays at its widest.

    Parameters
    ----------
    circuit
        The low-speed circuit: seat bore d, half the needle's angle :math:`\beta`, pitch.
    turns
        Turns off the seat [1], not negative; s is pitch times turns.

    Returns
    -------
    Area [m2].

    References
    ----------
    First principles: the frustum between a cone and a sharp seat; two orifices in series
    without recovery between them.
    """
    sine, cosine = np.sin(0.5 * circuit.needle_angle), np.cos(0.5 * circuit.needle_angle)
    clear = circuit.seat_bore / (2.0 * sine * cosine)
    rise = np.minimum(circuit.screw_pitch * turns, clear)
    ring = np.pi * rise * sine * (circuit.seat_bore - rise * sine * cosine)
    return _in_series(ring, bore_area(circuit.seat_bore))


def _in_series(first: Numbers, second: Numbers) -> Numbers:
    """Return the area that passes what two areas in series pass [m2]."""
    result: Numbers = first * second / np.sqrt(first**2 + second**2 + 1e-40)
    return result


def port_area(circuit: LowSpeed, turns: Numbers) -> Numbers:
    """Return the open area of the mixture screw's port.

    A fixed restrictor lies in series with the needle. Where the screw meters air instead, the
    port is the bare seat, with its restrictor.

    Parameters
    ----------
    circuit
        The low-speed circuit.
    turns
        Turns off the seat [1], not negative.

    Returns
    -------
    Area [m2].

    References
    ----------
    First principles.
    """
    seat = bore_area(circuit.seat_bore)
    needle = needle_area(circuit, turns)
    area = needle + circuit.screw_meters_air * (seat - needle)
    restrictor = bore_area(circuit.restrictor_bore)
    return np.where(restrictor > 0.0, _in_series(area, restrictor), area)


def idle_air_area(circuit: LowSpeed, turns: Numbers, enrichment: Numbers = 0.0) -> Numbers:
    r"""Return the open area of the idle air bleed.

    .. math:: A = A_{bleed}\,(1 - e\,k)

    with e the share that cold-start enrichment can shut and k how far it is shut now. An
    air-metering screw lies in series with the bleed.

    Parameters
    ----------
    circuit
        The low-speed circuit.
    turns
        Turns off the seat [1], not negative; of no account unless the screw meters air.
    enrichment
        k [1]: 0 with the air passage open, 1 with it shut.

    Returns
    -------
    Area [m2].

    References
    ----------
    First principles.
    """
    bleed = bore_area(circuit.air_bleed_bore)
    metered = _in_series(bleed, needle_area(circuit, turns))
    area = bleed + circuit.screw_meters_air * (metered - bleed)
    return area * (1.0 - circuit.enrichment * enrichment)


def turn(circuit: LowSpeed, turns: Numbers, clockwise: Numbers) -> Numbers:
    """Return how many turns off its seat the screw stands after it has been turned.

    A mixture screw has a right-hand thread: clockwise is inward, and leaner. An air-metering
    screw has a left-hand thread: clockwise is outward, more air, leaner again; counter-clockwise
    is inward and richer (common practice, no source).

    Parameters
    ----------
    circuit
        The low-speed circuit.
    turns
        Turns off the seat before [1].
    clockwise
        Turns made, clockwise positive [1].

    Returns
    -------
    Turns off the seat after [1], held by the limiter's stops and the seat.
    """
    outward = clockwise * (2.0 * circuit.screw_meters_air - 1.0)
    result: Numbers = np.clip(turns + outward, circuit.fewest_turns, circuit.most_turns)
    return result


def valve_lift(circuit: LowSpeed, vacuum: Numbers) -> Numbers:
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
    stage = (vacuum - circuit.valve_opening) / circuit.valve_range
    stage = np.minimum(np.maximum(stage, 0.0), 1.0)
    free = stage * stage * (3.0 - 2.0 * stage)
    result: Numbers = np.maximum(np.minimum(free, circuit.valve_most), circuit.valve_least)
    return result


def valve_area(circuit: LowSpeed, vacuum: Numbers) -> Numbers:
    """Return the open area of the off-idle bleed valve [m2]: its lift times its seat's area."""
    return valve_lift(circuit, vacuum) * bore_area(circuit.valve_bore)

"""The low-speed circuit: its entries on a card, and what its screw leaves open.

Fuel that has passed the main jet is lifted from the well through the low-speed jet. Air joins
it at the by-pass, from the bore below the choke plate, and at the idle air bleed, from the air
horn. The mixture falls through the economizer into the idle-port chamber, and leaves that by
the mixture screw's port and by the part of the slot-shaped idle port that lies below the edge
of the throttle plate; the part above the edge bleeds air in. Slot and bleed valve are in
`off_idle`. These modules know the geometry; which way anything flows, and how much, is for
`network` to find.
"""

from dataclasses import dataclass
from math import cos, pi, sin

from fuelcircuits.errors import RangeError
from fuelcircuits.physics.entry import Section, entry
from fuelcircuits.physics.openings.series import in_series
from fuelcircuits.physics.openings.two_phase import bore_area

__all__ = ["LowSpeed", "idle_air_area", "needle_area", "port_area", "turn"]


@dataclass(frozen=True)
class LowSpeed(Section):
    """One barrel's low-speed circuit (dimensions invented for each rig)."""

    jet_bore: float = entry("m", 0.05e-3, 2e-3, "bore of the low-speed jet")
    jet_length: float = entry("m", 0.05e-3, 20e-3, "length of the low-speed jet")
    lift: float = entry("m", 0, 50e-3, "height of the by-pass above the set fuel level")
    tube_depth: float = entry("m", 1e-3, 60e-3, "depth of the jet's foot below the set level")
    bypass_bore: float = entry("m", 0, 4e-3, "bore of the by-pass, air from below the choke")
    air_bleed_bore: float = entry("m", 0, 4e-3, "bore of the idle air bleed, from the air horn")
    economizer_bore: float = entry("m", 0.05e-3, 4e-3, "bore of the economizer")
    fall: float = entry("m", 0, 0.1, "height of the by-pass above the idle-port chamber")
    slot_width: float = entry("m", 0, 3e-3, "width of the slot, across the bore")
    slot_height: float = entry("m", 0.1e-3, 10e-3, "height of the slot, along the bore")
    slot_start: float = entry(
        "m", -5e-3, 15e-3, "height of the slot's foot above the throttle shaft's plane"
    )
    plate_edge: float = entry("m", 0.05e-3, 3e-3, "thickness of the throttle plate's edge")
    seat_bore: float = entry("m", 0.3e-3, 5e-3, "bore of the mixture screw's seat")
    needle_angle: float = entry("rad", 0.05, 1.6, "included angle of the screw's needle")
    screw_pitch: float = entry("m", 0.2e-3, 2e-3, "travel of the mixture screw in one turn")
    screw_turns: float = entry("1", 0, 12, "turns off the seat as the screw is set", 2.0)
    fewest_turns: float = entry("1", 0, 12, "turns off the seat at the limiter's inner stop", 0.0)
    most_turns: float = entry("1", 0, 12, "turns off the seat at the limiter's outer stop", 12.0)
    restrictor_bore: float = entry(
        "m", 0, 5e-3, "bore of a fixed restrictor in line with the screw; 0 for none", 0.0
    )
    screw_meters_air: float = entry(
        "1", 0, 1, "1 where a left-hand screw sets the idle air instead of the mixture", 0.0
    )
    valve_bore: float = entry("m", 0, 5e-3, "seat bore of the off-idle bleed valve", 0.0)
    valve_opening: float = entry(
        "Pa", 200, 10e3, "vacuum at which the bleed valve's ball leaves its seat", 2200.0
    )
    valve_range: float = entry(
        "Pa", 50, 10e3, "further vacuum that lifts the ball to its stop", 1000.0
    )
    valve_least: float = entry("1", 0, 1, "share of the lift at which the ball sticks", 0.0)
    valve_most: float = entry("1", 0, 1, "share of the lift the ball can reach", 1.0)
    enrichment: float = entry(
        "1", 0, 1, "share of the idle air that cold-start enrichment can shut off", 0.0
    )

    def __post_init__(self) -> None:
        """Check every entry, and that the screw is set within its stops."""
        super().__post_init__()
        if not self.fewest_turns <= self.screw_turns <= self.most_turns:
            raise RangeError(
                f"screw turns must be between the limiter's stops {self.fewest_turns:g} "
                f"and {self.most_turns:g}, got {self.screw_turns}"
            )


def needle_area(circuit: LowSpeed, turns: float) -> float:
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
    seat, half = circuit.seat_bore, circuit.needle_angle / 2
    sine, cosine = sin(half), cos(half)
    gap = sine * min(circuit.screw_pitch * turns, seat / (2.0 * sine * cosine))
    return in_series(pi * gap * (seat - gap * cosine), bore_area(seat))


def port_area(circuit: LowSpeed, turns: float) -> float:
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
    if circuit.restrictor_bore == 0.0:
        return area
    return in_series(area, bore_area(circuit.restrictor_bore))


def idle_air_area(circuit: LowSpeed, turns: float, enrichment: float = 0.0) -> float:
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
    metered = in_series(bleed, needle_area(circuit, turns))
    area = bleed + circuit.screw_meters_air * (metered - bleed)
    return area * (1.0 - circuit.enrichment * enrichment)


def turn(circuit: LowSpeed, turns: float, clockwise: float) -> float:
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
    return min(max(turns + outward, circuit.fewest_turns), circuit.most_turns)

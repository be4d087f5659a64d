"""Where the parts of the idle port's drawing stand, in the drawing's own units.

Bore, plate and slot are to one scale, and to a larger one in the enlarged detail.
"""

from collections.abc import Mapping
from math import cos, degrees, tan

from fuelcircuits.benches.off_idle.found import Found, Port

__all__ = ["DETAIL", "PLANE", "SHAFT", "place"]

SHAFT, WIDE = 214.0, 128.0
"""Height of the shaft, and width of the bore."""
SEAT, SCREW, BODY = 192.0, 252.0, 5.0
"""Where the mixture screw's seat stands, its axis, and half its thickness."""
BALL, LIFT, SPRING = 133.0, 9.0, 161.0
"""The bleed valve's ball on its seat, the way it can move, and the foot of its spring."""
DETAIL, PLANE, EDGE = 21e3, 296.0, 442.0
"""Units a metre in the detail; the shaft's plane and the bore's wall in it."""
MARKS, AIR_MARKS, FASTEST = 3e5, 3e3, 240.0
"""Speed of the flow marks, units a second for each kg/s; and the most of it."""


def place(found: Found) -> Mapping[str, float]:
    """Return the numbers that place every part."""
    port, unit = found.port, WIDE / found.port.bore
    numbers = _main(found, unit) | _screw(port, unit) | _detail(port, found.throttle)
    return numbers | _valve(found.lift) | _marks(found)


def _main(found: Found, unit: float) -> dict[str, float]:
    """Return plate and slot of the whole view."""
    port, half = found.port, WIDE / 2 / cos(found.port.closed_angle)
    foot = SHAFT - port.foot * unit
    top = foot - port.height * unit
    held = min(max(SHAFT - unit * port.tip, top), foot)
    return {
        "plate": -degrees(found.throttle),
        "plate_left": -half,
        "plate_right": half,
        "plate_top": -port.edge / 2 * unit,
        "plate_foot": port.edge / 2 * unit,
        "shaft": port.shaft / 2 * unit,
        "slot_foot": foot,
        "slot_top": top,
        "above": (top + held) / 2,
        "below": (foot + held) / 2,
        "below_in": top - 16,
        "middle": (top + foot) / 2,
        "middle_words": (top + foot) / 2 + 4,
    }


def _screw(port: Port, unit: float) -> dict[str, float]:
    """Return the mixture screw and its seat; the point fills the seat when it is shut."""
    seat, slope = port.seat / 2 * unit, tan(port.needle_angle / 2)
    point = SEAT - seat / slope + port.screwed_out * unit
    back = point + BODY / slope
    return {
        "seat_up": SCREW - seat,
        "seat_down": SCREW + seat,
        "seat_in": SCREW - BODY - 3,
        "seat_line": SCREW - seat / 2,
        "point": point,
        "shoulder": back,
        "head": back + 118,
        "head_end": back + 128,
    }


def _valve(lift: float) -> dict[str, float]:
    """Return the bleed valve's ball and its spring."""
    ball = BALL + LIFT * lift
    coil = (ball + 6 - SPRING) / 4
    return {"ball": ball} | {f"spring_{n}": SPRING + n * coil for n in range(1, 5)}


def _detail(port: Port, throttle: float) -> dict[str, float]:
    """Return slot and plate's edge, enlarged."""
    half = port.edge / 2 * DETAIL
    edge = PLANE - port.tip * DETAIL
    foot = PLANE - port.foot * DETAIL
    top = foot - port.height * DETAIL
    fall = (EDGE - 385) * tan(throttle)
    high, low_end = (min(max(edge + side, top), foot) for side in (-half, half))
    return {
        "d_top": top,
        "d_foot": foot,
        "d_edge_up": edge - half,
        "d_edge_down": edge + half,
        "d_left_up": edge - half + fall,
        "d_left_down": edge + half + fall,
        "d_words": edge + 0.6 * fall + 4,
        "d_high": high,
        "d_low": low_end,
        "d_air": (top + high) / 2,
        "d_below": (low_end + foot) / 2 + 2.5,
        "d_out": (low_end + foot) / 2 - 2.5,
        "d_start": top - 40,
        "d_above_words": (top + high) / 2 + 4,
        "d_below_words": (low_end + foot) / 2 + 4,
        "d_above_shown": float(high - top > 10),
        "d_below_shown": float(foot - low_end > 10),
    }


def _marks(found: Found) -> dict[str, float]:
    """Return the speeds of the flow marks; each stream's air and fuel apart."""
    streams = found.streams._asdict()
    speeds = {name: MARKS * flow for name, flow in streams.items()}
    speeds["engine"] = AIR_MARKS * streams["engine"]
    return {name: min(max(speed, -FASTEST), FASTEST) for name, speed in speeds.items()}

"""Where the parts of the low-speed circuit's drawing stand, in the drawing's own units.

Jet, bleeds, economizer and screw are drawn to one scale, larger than the castings around them.
"""

from collections.abc import Mapping
from math import degrees, tan

from fuelcircuits.benches.low_speed.found import Found

__all__ = ["OPENING", "place"]

OPENING = 7000.0
"""Units a metre of an opening."""
TUBE, BYPASS, BLEED, CHANNEL = 162.0, 262.0, 214.0, 99.0
"""Axis of the jet's tube, of the by-pass, of the idle air bleed, and of the channel."""
SEAT, SCREW, BODY = 344.0, 272.0, 7.0
"""Where the mixture screw's seat stands, its axis, and half its thickness."""
BLEED_SEAT = 66.0
MARKS, AIR_MARKS, FASTEST = 3e5, 5e3, 240.0
"""Speed of the flow marks, units a second for each kg/s; and the most of it."""


def place(found: Found) -> Mapping[str, float]:
    """Return the numbers that place every part."""
    numbers = {kind: float(found.kind == kind) for kind in ("limited", "restricted", "sealed")}
    numbers |= {
        "air_kind": float(found.kind == "air"),
        "mixture_kind": float(found.kind != "air"),
        "head_turn": 360 * found.clockwise,
        "plate": degrees(found.throttle),
    }
    return numbers | _bores(found) | _screws(found) | _marks(found)


def _bores(found: Found) -> dict[str, float]:
    """Return both sides of each opening."""
    sizes = found.sizes
    bores = {
        "jet": (TUBE, sizes.jet),
        "bypass": (BYPASS, sizes.bypass),
        "bleed": (BLEED, sizes.bleed),
        "economizer": (CHANNEL, sizes.economizer),
    }
    low = {f"{name}_low": axis - bore / 2 * OPENING for name, (axis, bore) in bores.items()}
    return low | {f"{name}_high": axis + bore / 2 * OPENING for name, (axis, bore) in bores.items()}


def _screws(found: Found) -> dict[str, float]:
    """Return both screws' needles; a needle's point fills its seat when it is shut."""
    sizes = found.sizes
    seat, slope = sizes.seat / 2 * OPENING, tan(sizes.needle_angle / 2)
    back = sizes.screwed_out * OPENING / 3
    shown = min(seat / slope, 28.0)
    return {
        "seat_up": SCREW - seat,
        "seat_down": SCREW + seat,
        "point": SEAT + shown - back,
        "shoulder": SEAT + shown - back - min(BODY / slope, 36.0),
        "head": 262 - back,
        "head_end": 250 - back,
        "cap": 244 - back,
        "air_point": BLEED_SEAT + 18 - back,
        "air_shoulder": BLEED_SEAT - 6 - back,
        "air_head": 44 - back,
        "air_head_end": 37 - back,
    }


def _marks(found: Found) -> dict[str, float]:
    """Return the speeds of the flow marks; each stream's air and fuel apart."""
    streams = found.streams
    speeds = {
        "engine": AIR_MARKS * streams.engine,
        "fuel": MARKS * streams.jet_fuel,
        "bypass_air": 3 * MARKS * streams.bypass_air,
        "bleed_air": 3 * MARKS * streams.bleed_air,
        "froth_air": 3 * MARKS * streams.froth_air,
        "froth_fuel": MARKS * streams.froth_fuel,
        "slot_air": MARKS * streams.slot_air,
        "screw_fuel": MARKS * streams.screw_fuel,
        "screw_air": MARKS * streams.screw_air,
    }
    return {name: min(max(speed, -FASTEST), FASTEST) for name, speed in speeds.items()}

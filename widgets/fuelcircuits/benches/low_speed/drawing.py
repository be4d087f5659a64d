"""Where the parts of the low-speed circuit's drawing stand, in the drawing's own units.

Jet, bleeds, economizer and screw are drawn to one scale, larger than the castings around them.
"""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import numpy as np

if TYPE_CHECKING:
    from fuelcircuits.benches.low_speed.bench import Idle

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


def place(now: "Idle") -> Mapping[str, float]:
    """Return the numbers that place every part."""
    low = now.low
    bores = {
        "jet": (TUBE, low.jet_bore),
        "bypass": (BYPASS, low.bypass_bore),
        "bleed": (BLEED, low.air_bleed_bore),
        "economizer": (CHANNEL, low.economizer_bore),
    }
    numbers: dict[str, float] = {}
    for name, (axis, bore) in bores.items():
        half = _number(bore) / 2 * OPENING
        numbers |= {f"{name}_low": axis - half, f"{name}_high": axis + half}
    numbers |= {kind: float(now.kind == kind) for kind in ("limited", "restricted", "sealed")}
    numbers |= {
        "air_kind": float(now.kind == "air"),
        "mixture_kind": float(now.kind != "air"),
        "head_turn": 360 * now.clockwise,
        "plate": float(np.degrees(now.state.throttle_angle)),
    }
    return numbers | _screws(now) | _marks(now)


def _number(value: Any) -> float:
    return float(np.asarray(value))


def _screws(now: "Idle") -> dict[str, float]:
    """Return both screws' needles; a needle's point fills its seat when it is shut."""
    low = now.low
    seat, slope = _number(low.seat_bore) / 2 * OPENING, np.tan(_number(low.needle_angle) / 2)
    back = _number(low.screw_pitch) * now.turns * OPENING / 3
    length, body = float(seat / slope), float(BODY / slope)
    shown = min(length, 28.0)
    return {
        "seat_up": SCREW - seat,
        "seat_down": SCREW + seat,
        "point": SEAT + shown - back,
        "shoulder": SEAT + shown - back - min(body, 36.0),
        "head": 262 - back,
        "head_end": 250 - back,
        "cap": 244 - back,
        "air_point": BLEED_SEAT + 18 - back,
        "air_shoulder": BLEED_SEAT - 6 - back,
        "air_head": 44 - back,
        "air_head_end": 37 - back,
    }


def _marks(now: "Idle") -> dict[str, float]:
    """Return the speeds of the flow marks; each stream's air and fuel apart."""
    flows = now.state.flows
    speeds = {
        "engine": AIR_MARKS * now.state.air_flow,
        "fuel": MARKS * flows.idle_jet.fuel[0],
        "bypass_air": 3 * MARKS * flows.bypass.air[0],
        "bleed_air": 3 * MARKS * flows.idle_air.air[0],
        "froth_air": 3 * MARKS * flows.economizer.air[0],
        "froth_fuel": MARKS * flows.economizer.fuel[0],
        "slot_air": MARKS * flows.slot_above.air[0],
        "screw_fuel": MARKS * flows.screw.fuel[0],
        "screw_air": MARKS * flows.screw.air[0],
    }
    return {name: float(np.clip(speed, -FASTEST, FASTEST)) for name, speed in speeds.items()}

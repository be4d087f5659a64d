"""Where the parts of the setting bench's drawing stand, in the drawing's own units."""

from collections.abc import Mapping
from math import cos, degrees, sin

from fuelcircuits.benches.setting_up.found import TURN, Found

__all__ = ["FACE", "VENT", "place", "scale"]

FACE, SHAFT, LEVER = 92.0, (330.0, 200.0), (-94.0, -50.0)
"""Gasket face upright, throttle shaft, and the end of its lever from there."""
DEPTH = 140.0
"""Units of the bowl's depth."""
VENT, SCREW = 12_000.0, 5.0
"""Units a metre of the vent's lift, and for a turn of a screw."""


def scale(found: Found) -> float:
    """Return the units a metre of the bowl."""
    return DEPTH / found.depth


def place(found: Found) -> Mapping[str, float]:
    """Return the numbers that place every part."""
    unit, now = scale(found), found.now
    surface, high = FACE + now.below * unit, found.float_height * unit
    return _throttle(found) | {
        "surface": surface,
        "floor": FACE + DEPTH,
        "under": FACE + DEPTH + 14,
        "specified": FACE + found.specified_level * unit,
        "float_top": surface - 0.35 * high,
        "float_high": high,
        "float_round": high / 2,
        "float_words": surface + 0.15 * high + 4,
        "vent": 76.0 - VENT * now.lift,
        "vent_stem": 66.0 - VENT * now.lift,
        "needle": SCREW * found.setting.mixture_screw,
        "air": 0.25 * found.resting.speed,
        "fuel": 0.2 * found.resting.speed,
    }


def _throttle(found: Found) -> dict[str, float]:
    """Return where throttle, lever and cam stand."""
    angle = found.resting.throttle
    opened = angle - found.now.stop.throttle + (found.setting.idle_screw + 1) * TURN
    return {
        "throttle": degrees(angle),
        "lever": degrees(opened),
        "touch": SHAFT[0] + LEVER[0] * cos(opened) - LEVER[1] * sin(opened) - 7,
        "cam": -48.0 if found.on_cam else 0.0,
        "on_cam": float(found.on_cam),
        "off_cam": float(not found.on_cam),
    }

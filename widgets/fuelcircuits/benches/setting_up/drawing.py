"""Where the parts of the setting bench's drawing stand, in the drawing's own units."""

from collections.abc import Mapping

import numpy as np

from fuelcircuits.benches.setting_up.idle_setting import Adjusted, Idle
from fuelcircuits.physics.network.rig import Rig

__all__ = ["FACE", "VENT", "place", "scale"]

FACE, SHAFT, LEVER = 92.0, (330.0, 200.0), (-94.0, -50.0)
"""Gasket face upright, throttle shaft, and the end of its lever from there."""
VENT, SCREW = 12_000.0, 5.0
"""Units a metre of the vent's lift, and for a turn of a screw."""


def scale(rig: Rig) -> float:
    """Return the units a metre of the bowl."""
    return 140.0 / rig.float_bowl.depth


def place(rig: Rig, setting: Adjusted, now: Idle, on_cam: bool) -> Mapping[str, float]:
    """Return the numbers that place every part."""
    bowl, unit = rig.float_bowl, scale(rig)
    angle = float(now.throttle[-1] if on_cam else now.throttle[-2])
    opened = angle - float(now.throttle[-2]) + (setting.idle_screw + 1) * np.radians(0.6)
    turn, tip = float(np.cos(opened)), float(np.sin(opened))
    surface = FACE + now.below * unit
    high = bowl.float_height * unit
    running = float(now.speed[-1] if on_cam else now.speed[-2])
    return {
        "surface": surface,
        "floor": FACE + 140.0,
        "under": FACE + 154.0,
        "specified": FACE + bowl.specified_level * unit,
        "float_top": surface - 0.35 * high,
        "float_high": high,
        "float_round": high / 2,
        "float_words": surface + 0.15 * high + 4,
        "vent": 76.0 - VENT * now.lift,
        "vent_stem": 66.0 - VENT * now.lift,
        "throttle": float(np.degrees(angle)),
        "lever": float(np.degrees(opened)),
        "touch": SHAFT[0] + LEVER[0] * turn - LEVER[1] * tip - 7,
        "needle": SCREW * setting.mixture_screw,
        "cam": -48.0 if on_cam else 0.0,
        "on_cam": float(on_cam),
        "off_cam": float(not on_cam),
        "air": 0.25 * running,
        "fuel": 0.2 * running,
    }

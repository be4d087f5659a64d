"""Where the parts of the air path's drawing stand, in the drawing's own units.

The bore is to scale, each width the rig's own; heights along it are not. The pressure line at
its side is to the scale of its card's deepest depression; what lies deeper is cut off.
"""

from collections.abc import Mapping
from math import cos, degrees

from fuelcircuits.benches.air_path.found import Found

__all__ = ["AXIS", "place"]

AXIS, WIDE = 150.0, 62.0
"""Axis of the bore, and half its width at the throttle."""
OUTSIDE, DEEP, DEEPEST = 506.0, 1 / 80.0, 190.0
"""Where outside pressure stands on the pressure line, units a pascal, and the way there is."""
MARKS, FASTEST = 3e3, 240.0
"""Speed of the flow marks, units a second for each kg/s; and the most of it."""


def place(found: Found) -> Mapping[str, float]:
    """Return the numbers that place every part."""
    bores, unit = found.bores, 2 * WIDE / found.bores.throttle
    plate = WIDE / cos(bores.closed_angle)
    numbers = {
        "throttle": -degrees(found.throttle),
        "plate": plate,
        "plate_left": -plate,
        "choke": -degrees(found.choke),
        "dirt": found.blocked,
        "shaft": bores.shaft / 2 * unit,
    }
    return numbers | _widths(found, unit) | _line(found) | _marks(found)


def _widths(found: Found, unit: float) -> dict[str, float]:
    """Return both sides of each width, and of the ring between venturi and booster."""
    bores = found.bores
    widths = {
        "throat": bores.venturi,
        "out": bores.booster_outside,
        "in": bores.booster_throat,
        "exit": bores.booster_exit,
        "ring": (bores.venturi + bores.booster_outside) / 2,
    }
    left = {f"{name}_left": AXIS - wide / 2 * unit for name, wide in widths.items()}
    return left | {f"{name}_right": AXIS + wide / 2 * unit for name, wide in widths.items()}


def _line(found: Found) -> dict[str, float]:
    """Return where the pressures stand on the line beside the bore."""
    losses = found.losses._asdict().items()
    return {f"p_{name}": OUTSIDE - min(DEEPEST, DEEP * loss) for name, loss in losses}


def _marks(found: Found) -> dict[str, float]:
    flow = MARKS * found.flow
    return {"air": min(FASTEST, flow), "fast": min(FASTEST, 1.5 * flow)}

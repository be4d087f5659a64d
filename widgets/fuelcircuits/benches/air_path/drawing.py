"""Where the parts of the air path's drawing stand, in the drawing's own units.

The bore is to scale, each width the rig's own; heights along it are not. The pressure line at
its side is to the scale of its card's deepest depression; what lies deeper is cut off.
"""

from collections.abc import Mapping
from typing import TYPE_CHECKING

import numpy as np

from fuelcircuits.physics.engine.air_path import AirPath

if TYPE_CHECKING:
    from fuelcircuits.benches.air_path.bench import Draught

__all__ = ["AXIS", "place"]

AXIS, WIDE = 150.0, 62.0
"""Axis of the bore, and half its width at the throttle."""
OUTSIDE, DEEP, DEEPEST = 506.0, 1 / 80.0, 190.0
"""Where outside pressure stands on the pressure line, units a pascal, and the way there is."""
MARKS, FASTEST = 3e3, 240.0
"""Speed of the flow marks, units a second for each kg/s; and the most of it."""


def place(now: "Draught", card: AirPath) -> Mapping[str, float]:
    """Return the numbers that place every part."""
    path, unit = now.path, 2 * WIDE / card.throttle_bore
    widths = {
        "throat": path.venturi_bore,
        "out": path.booster_outside,
        "in": path.booster_throat,
        "exit": path.booster_exit,
    }
    numbers: dict[str, float] = {}
    for name, bore in widths.items():
        half = bore / 2 * unit
        numbers |= {f"{name}_left": AXIS - half, f"{name}_right": AXIS + half}
    ring = (path.venturi_bore + path.booster_outside) / 4 * unit
    numbers |= {
        "ring_left": AXIS - ring,
        "ring_right": AXIS + ring,
        "throttle": -float(np.degrees(now.angle)),
        "plate": WIDE / float(np.cos(path.throttle_closed_angle)),
        "choke": -float(np.degrees(now.choke)),
        "dirt": 1 - path.cleaner_area / card.cleaner_area,
        "shaft": path.throttle_shaft / 2 * unit,
    }
    numbers["plate_left"] = -numbers["plate"]
    return numbers | _line(now) | _marks(now)


def _line(now: "Draught") -> dict[str, float]:
    """Return where the pressures stand on the line beside the bore."""
    state = now.state
    along = {
        "p_horn": state.horn_pressure,
        "p_choke": state.choke_pressure,
        "p_venturi": state.venturi_pressure,
        "p_booster": state.booster_pressure,
        "p_above": state.throttle_pressure,
        "p_manifold": state.manifold_pressure,
    }
    outside = float(state.ambient_pressure)
    return {
        name: OUTSIDE - min(DEEPEST, DEEP * (outside - float(each))) for name, each in along.items()
    }


def _marks(now: "Draught") -> dict[str, float]:
    flow = float(now.state.carburettor_flow)
    return {"air": min(FASTEST, MARKS * flow), "fast": min(FASTEST, 1.5 * MARKS * flow)}

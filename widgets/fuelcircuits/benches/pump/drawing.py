"""Where the parts of the accelerator pump's drawing stand, in the drawing's own units.

Bore and travel of the pump are to one scale; the film on the wall is drawn far too thick.
"""

from collections.abc import Mapping
from typing import Any

import numpy as np

from fuelcircuits.benches.pump.tip_in import TipIn
from fuelcircuits.physics.circuits.pump import Pump

__all__ = ["TOP", "place", "scale"]

MIDDLE, TOP, THROTTLE = 150.0, 98.0, 200.0
"""Where the pump's axis stands across, and plunger at rest and throttle shaft upright."""
MARKS, FILM = 60_000.0, 22_000.0
"""Speed of the flow marks, units a second for each kg/s, and units a kilogram of film."""


def scale(pump: Pump) -> float:
    """Return the units a metre of the pump."""
    return min(84 / pump.bore, 48 / pump.stroke)


def place(pump: Pump, run: TipIn) -> Mapping[str, Any]:
    """Return the numbers that place every part; what moves is an array over the run."""
    unit = scale(pump)
    bore, plate = pump.bore / 2 * unit, pump.plate_bore / 2 * unit
    down, rod = run.plunger * unit, run.rod * unit
    collar, top = TOP - 58 + rod, TOP + down
    jet = pump.jet_bore / 2 * 1.6 * unit
    moving = np.asarray(run.shot > 2e-6, dtype=float)
    return _spring(collar, top) | {
        "bore_left": MIDDLE - bore,
        "bore_right": MIDDLE + bore,
        "plate_left": MIDDLE - plate,
        "plate_right": MIDDLE + plate,
        "cup": float(pump.plate_bore > 0.98 * pump.bore),
        "diaphragm": float(pump.plate_bore <= 0.98 * pump.bore),
        "plunger": top,
        "plunger_foot": top + 13,
        "rod": rod,
        "clamp": TOP + 6,
        "outlet_ball": 150.0 - 7 * moving,
        "jet_top": 78 - jet,
        "jet_foot": 78 + jet,
        "shot": MARKS * run.shot,
        "circuits": 6_000.0 * run.circuits,
        "air": 40.0,
        "throttle": np.degrees(run.throttle),
        "film": np.clip(FILM * run.film[:, 0], 0.5, 44.0),
        "film_right": 498 - np.clip(FILM * run.film[:, 0], 0.5, 44.0),
    }


def _spring(collar: Any, top: Any) -> dict[str, Any]:
    """Return the places of the spring's turns between collar and plunger."""
    return {f"coil_{i}": collar + (top - collar) * i / 6 for i in range(7)}

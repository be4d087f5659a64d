"""Where the parts of the hot soak's drawing stand in time, in the drawing's own units."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import numpy as np

from fuelcircuits.benches.hot_soak.words import BOILS

if TYPE_CHECKING:
    from fuelcircuits.benches.hot_soak.bench import Soak

__all__ = ["BED", "FLOOR", "place"]

FLOOR, LEVEL = 214.0, 178.0
"""Floor of the bowl, and the fuel's level in it at the stop."""
PUDDLE, GRAM = 268.0, 2800.0
"""Floor of the manifold, and units for each kilogram of fuel that lies there."""
BED, BED_HIGH = 268.0, 76.0
"""Foot of the canister's bed and its height."""
COLD, BULB, DEGREE = 273.15, 250.0, 1.25
"""Foot of the thermometers' scale [K], where it stands, and units a kelvin."""
MARKS, FASTEST = 4e6, 120.0
"""Speed of the vapour marks, units a second for each kg/s; and the most of it."""


def place(soak: "Soak") -> Mapping[str, Any]:
    """Return the numbers that place every part, most of them one for each time."""
    run, ways = soak.run, soak.ways
    left = run.fuel_left / run.fuel_left[0]
    surface = FLOOR - (FLOOR - LEVEL) * left
    puddle = np.minimum(GRAM * run.intake, 34.0)
    bed = BED_HIGH * np.clip(run.stored / soak.capacity, 0, 1)
    heats = {"bowl": run.bowl, "block": run.block}
    numbers: dict[str, Any] = {
        "surface": surface,
        "boiling": (run.vapour > BOILS).astype(float),
        "puddle": PUDDLE - puddle,
        "bed": BED - bed,
        "bed_high": bed,
        "spread": np.minimum(MARKS * run.vapour, FASTEST),
        "valve": 258.0 if soak.kind == "canister" else 222.0,
        "lift": 148 - 8 * float(soak.ways.outside > 0),
        "cap": 143 - 8 * float(soak.ways.outside > 0),
        "rod": 126 - 8 * float(soak.ways.outside > 0),
        "heat": np.clip(1.2 * (run.block - run.bowl), 0, 80),
    }
    for name, heat in heats.items():
        numbers[f"{name}_high"] = DEGREE * np.clip(heat - COLD, 0, 102)
        numbers[f"{name}_top"] = BULB - DEGREE * np.clip(heat - COLD, 0, 102)
    for name in ("inside", "outside", "canister"):
        share = float(getattr(ways, name))
        numbers[f"v_{name}"] = np.minimum(MARKS * share * run.vapour, FASTEST)
    return numbers

"""Where the parts of the hot soak's drawing stand in time, in the drawing's own units."""

from collections.abc import Mapping
from typing import Any

from fuelcircuits.benches.hot_soak.found import Soaked

__all__ = ["BED", "FLOOR", "place"]

FLOOR, LEVEL = 214.0, 178.0
"""Floor of the bowl, and the fuel's level in it at the stop."""
PUDDLE, GRAM, DEEPEST = 268.0, 2800.0, 34.0
"""Floor of the manifold, units for each kilogram of fuel that lies there, and the most of it."""
BED, BED_HIGH = 268.0, 76.0
"""Foot of the canister's bed and its height."""
COLD, BULB, DEGREE = 273.15, 250.0, 1.25
"""Foot of the thermometers' scale [K], where it stands, and units a kelvin."""
MARKS, FASTEST = 4e6, 120.0
"""Speed of the vapour marks, units a second for each kg/s; and the most of it."""


def place(soaked: Soaked, _found: object) -> Mapping[str, Any]:
    """Return the numbers that place every part, most of them one for each time."""
    numbers = _vent(soaked) | _fuel(soaked) | _marks(soaked)
    for name, heat in (("bowl", soaked.bowl), ("block", soaked.block)):
        high = [DEGREE * min(max(each - COLD, 0.0), 102.0) for each in heat]
        numbers |= {f"{name}_high": high, f"{name}_top": [BULB - each for each in high]}
    return numbers


def _vent(soaked: Soaked) -> dict[str, Any]:
    """Return valve and cap, which stand still."""
    lift = 8.0 if soaked.ways.outside > 0 else 0.0
    return {
        "valve": 258.0 if soaked.kind == "canister" else 222.0,
        "lift": 148.0 - lift,
        "cap": 143.0 - lift,
        "rod": 126.0 - lift,
    }


def _fuel(soaked: Soaked) -> dict[str, Any]:
    """Return the fuel in bowl, manifold and canister, and the heat on its way to it."""
    deep, bed = FLOOR - LEVEL, [BED_HIGH * min(max(each, 0.0), 1.0) for each in soaked.full]
    warmth = zip(soaked.block, soaked.bowl, strict=True)
    return {
        "surface": [FLOOR - deep * each / soaked.left[0] for each in soaked.left],
        "boiling": [float(each) for each in soaked.boils],
        "puddle": [PUDDLE - min(GRAM * each, DEEPEST) for each in soaked.intake],
        "bed": [BED - each for each in bed],
        "bed_high": bed,
        "heat": [min(max(1.2 * (block - bowl), 0.0), 80.0) for block, bowl in warmth],
    }


def _marks(soaked: Soaked) -> dict[str, Any]:
    """Return the speeds of the vapour marks: all of it, and what takes each way."""
    ways = soaked.ways
    shares = {
        "spread": 1.0,
        "v_inside": ways.inside,
        "v_outside": ways.outside,
        "v_canister": ways.canister,
    }
    return {
        name: [min(MARKS * share * each, FASTEST) for each in soaked.vapour]
        for name, share in shares.items()
    }

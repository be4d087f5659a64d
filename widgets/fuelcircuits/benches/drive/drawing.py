"""Where the parts of the driven carburettor stand, in the drawing's own units.

The drawing is a scheme: both barrels beside the bowl, what is thin drawn thick. Angles are true.
"""

from collections.abc import Mapping
from math import degrees

from fuelcircuits.benches.drive.row import Row

__all__ = ["place", "whole"]

WIDE = 620
"""Width of the drawing."""
FULL, DEEP = 141.0, 2100.0
"""Height of the card's level in the drawing, and units a metre of level."""
AIR, FUEL, SHOT = 2600.0, 32_000.0, 60_000.0
"""Speed of the marks, units a second for each kg/s: air, fuel, the pump's fuel."""
MOST = 160.0
"""Fastest that marks move [units/s]."""
FEEDS = 0.02
"""Share of the fuel from which on a circuit counts as feeding [1]."""
FILM, THICKEST = 5500.0, 14.0
"""Units a kilogram of film on the wall, and the most that are drawn."""
BED, BED_HIGH, PURGE = 338.0, 44.0, 400_000.0
"""Foot and height of the canister's bed, and speed of the marks of what is drawn from it."""
FLAME = 350.0
"""Coolant below which an exhaust steams [K]."""


def whole(half: str) -> str:
    """Return the drawing with its second barrel, the mirror image of the first."""
    before, mark, rest = half.partition('<g id="half" class="half">')
    barrel, end, after = rest.partition("</g><!-- half -->")
    mirrored = f'<g transform="translate({WIDE} 0) scale(-1 1)">{barrel}</g>'
    return f"{before}{mark}{barrel}</g>{mirrored}{after}" if end else half


def place(row: Row, plunger: float) -> Mapping[str, float]:
    """Return the numbers that place every part.

    Parameters
    ----------
    row
        What is shown.
    plunger
        How far the pump's plunger is down, share of its stroke [1].
    """
    surface = min(max(FULL - DEEP * row.level, 112.0), 226.0)
    return {
        "throttle": degrees(row.throttle),
        "choke": degrees(row.choke),
        "surface": surface,
        "float_top": surface - 15.0,
        "needle": min(max((surface - FULL) * 0.5, 0.0), 8.0),
        "rod_up": -14.0 * row.lift,
        "plunger": 26.0 * plunger,
        "film_top": 414.0 - min(FILM * row.film, THICKEST),
        "air": _speed(AIR * row.air),
        "canister": float(row.bed >= 0.0),
        "bed_top": BED - BED_HIGH * min(max(row.bed, 0.0), 1.0),
        "purge": _speed(PURGE * row.purged),
        **_marks(row),
        **_lights(row),
        **exhaust(row),
    }


def _speed(value: float) -> float:
    return min(max(value, 0.0), MOST)


def _marks(row: Row) -> dict[str, float]:
    """Return how fast the marks of each passage move."""
    idle = row.screw + row.slot
    return {
        "screw_flow": _speed(FUEL * row.screw),
        "slot_flow": _speed(FUEL * row.slot),
        "idle_flow": _speed(FUEL * idle),
        "main_flow": _speed(FUEL / 2 * (row.main + row.power)),
        "jet_flow": _speed(FUEL / 2 * (row.main + row.power + idle)),
        "pump_flow": _speed(SHOT * row.pump),
    }


def _lights(row: Row) -> dict[str, float]:
    """Return how bright each circuit is lit: nothing where it does not feed."""
    whole = max(row.fuel, 1e-9)
    ways = {"screw": row.screw, "slot": row.slot, "power": row.power, "pump": row.pump}
    shares = {name: flow / whole for name, flow in ways.items()} | {"main": row.main / whole}
    lit = {
        f"{name}_lit": (0.25 + 0.65 * min(1.6 * share, 1.0)) if share > FEEDS else 0.0
        for name, share in shares.items()
    }
    return lit if row.fuel > 1e-6 else dict.fromkeys(lit, 0.0)


def exhaust(row: Row) -> dict[str, float]:
    """Return how dense soot and steam are at the tailpipe (common practice, no source)."""
    if row.air < 1e-6:
        return {"soot": 0.0, "steam": 0.0, "puff": 0.0}
    soot = min(max((0.86 - row.mixture) / 0.3, 0.0), 1.0) * 0.8
    steam = min(max((FLAME - row.coolant) / 60.0, 0.0), 1.0) * 0.5
    return {"soot": soot, "steam": steam, "puff": _speed(AIR / 2 * row.air)}

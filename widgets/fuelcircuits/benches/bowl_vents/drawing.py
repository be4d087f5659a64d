"""Where the parts of the vents' drawing stand, in the drawing's own units.

Openings are drawn three times as large as the castings around them, to one scale; the columns
at the right are as high as the plot is wide.
"""

from collections.abc import Mapping
from math import degrees

from fuelcircuits.benches.bowl_vents.found import Found

__all__ = ["OPENING", "place"]

OPENING = 3000.0
"""Units a metre of an opening."""
COVER, CENTRE, TOP, FOOT = 148.0, 134.0, 124.0, 140.0
"""Top of the bowl's cover, centre of the outside vent, and the passage of the inside vent."""
OUTSIDE, COLUMN, BOTTOM = 164.0, 96.0, 264.0
"""Where the columns stand at the pressure outside, how far they can fall, and their foot."""
TRAVEL = 36.0
"""Way of the two-way valve between its seats."""
AIR_MARKS, VENT_MARKS, FUEL_MARKS = 3e3, 2e5, 2e4
"""Speed of the flow marks, units a second for each kg/s."""
FASTEST = 240.0
"""Speed above which marks would only flicker, units a second."""


def place(found: Found) -> Mapping[str, float]:
    """Return the numbers that place every part."""
    plug = FOOT - (FOOT - TOP) * found.plugged
    numbers = {
        "dirt": found.dirty / 0.7,
        "boiling": float(found.vapour > 1e-5),
        "plug": plug,
        "through": (TOP + plug) / 2,
        "valve": 222 + TRAVEL * (1 - found.pull),
        "gasket_top": 162 + 3 * found.gasket / 40e-6,
        "throttle": -degrees(found.throttle),
    }
    return numbers | _outside(found) | _columns(found) | _marks(found)


def _outside(found: Found) -> dict[str, float]:
    """Return the mechanical vent: its bore, and its cap above the cover."""
    half, lift = found.outside_bore / 2 * OPENING, found.lift * OPENING
    foot = COVER - lift
    return {
        "outside_left": CENTRE - half,
        "outside_right": CENTRE + half,
        "outside_in": CENTRE - half + 4,
        "outside_out": CENTRE + half - 4,
        "cap": foot - 5,
        "cap_foot": foot,
        "cap_left": CENTRE - half - 4,
        "cap_right": CENTRE + half + 4,
        "far_left": CENTRE - half - 18,
        "far_right": CENTRE + half + 18,
        "gap": COVER - lift / 2,
        "rod": foot - 19,
    }


def _columns(found: Found) -> dict[str, float]:
    """Return the columns that show the pressures in horn and bowl."""
    scale = COLUMN / -found.span[0]
    horn, bowl = (
        min(max(OUTSIDE - scale * each, OUTSIDE - 36), BOTTOM - 2)
        for each in (found.horn, found.bowl)
    )
    return {"horn": horn, "horn_high": BOTTOM - horn, "bowl": bowl, "bowl_high": BOTTOM - bowl}


def _marks(found: Found) -> dict[str, float]:
    """Return the speeds of the flow marks, inward into the bowl where they can turn round."""
    inward = found.inward
    speeds = {
        "engine": AIR_MARKS * found.air,
        "fuel": FUEL_MARKS * found.fuel,
        "vapour": VENT_MARKS * found.vapour,
        "inside": VENT_MARKS * inward.inside,
        "outside": VENT_MARKS * inward.outside / 2,
        "canister": VENT_MARKS * inward.canister,
        "gasket": VENT_MARKS * inward.gasket,
    }
    return {name: min(max(speed, -FASTEST), FASTEST) for name, speed in speeds.items()}

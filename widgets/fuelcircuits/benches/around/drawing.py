"""Where the parts of the drawing stand, in the drawing's own units."""

from collections.abc import Mapping
from math import degrees

from fuelcircuits.benches.around.found import Found

__all__ = ["FULL", "SWEEP", "place"]

SWEEP, FULL = 240.0, 101.6e3
"""Degrees of the vacuum gauge's dial, and the vacuum at its end [Pa]: 30 inHg."""
SPARK = 3.0
"""Degrees that the timing pointer turns for one of the spark, so that it can be seen."""
AIR, OPEN_HOSE, LIFT = 4e6, 16e-6, 6e-6
MOST_BLOCKED, PIPE = 40e3, (300.0, 326.0)


def place(found: Found) -> Mapping[str, float]:
    """Return the numbers that place every part."""
    low, high = min(found.needle.vacuum), max(found.needle.vacuum)
    return {
        "late": SPARK * degrees(found.late),
        "weak": found.dead,
        "hose_air": AIR * found.hose,
        "hose_end": 84 - 30 * found.hose / OPEN_HOSE,
        "hose_bend": 50 - 8 * found.hose / OPEN_HOSE,
        "off": float(found.hose > 0),
        "back_gas": AIR * found.back,
        "lift": -12 * found.back / LIFT,
        "pinch_top": PIPE[0] + 11 * found.blocked / MOST_BLOCKED,
        "pinch_foot": PIPE[1] - 11 * found.blocked / MOST_BLOCKED,
        "screw": 90 * found.turns,
        "needle": _angle(found.vacuum),
        "needle_low": _angle(low),
        "needle_high": _angle(high),
        "still": 0.0 if found.speed else 1.0,
        "turning": 1.2 * found.speed,
    }


def _angle(vacuum: float) -> float:
    """Return where the needle stands [degrees], 0 at the top."""
    return SWEEP * (min(max(vacuum / FULL, 0.0), 1.0) - 0.5)

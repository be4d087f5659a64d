"""Where the bars of the fault bench's drawing end, and which suspects are ruled out."""

from collections.abc import Mapping

from fuelcircuits.benches.diagnosis.found import Found
from fuelcircuits.diagnosis.plan import APART

__all__ = ["BAR", "WIDEST", "place"]

BAR, WIDEST = 258.0, 2 * APART
"""Length of the longest bar, and the uncertainties that it stands for."""


def place(found: Found) -> Mapping[str, float]:
    """Return the numbers that place every part."""
    bars = {f"bar{at}": BAR * min(far, WIDEST) / WIDEST for at, far in enumerate(found.off)}
    return bars | {f"out{at}": float(far > APART) for at, far in enumerate(found.off)}

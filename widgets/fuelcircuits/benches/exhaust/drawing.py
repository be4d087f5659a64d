"""Where the parts of the exhaust bench's drawing stand, in the drawing's own units."""

from collections.abc import Mapping

from fuelcircuits.benches.exhaust.found import Found

__all__ = ["FLOOR", "SHARE", "place"]

BAR, PART = 20.0, 22.0
"""Left end of the bar of air, and units for one part of air."""
FLOOR, SHARE = 268.0, 1000.0
"""Foot of the analyser's columns, and units for the whole of the gas."""
MARKS = 60.0
"""Speed of the marks in the ports, units a second; of false air, for one part to one of gas."""


def place(found: Found) -> Mapping[str, float]:
    """Return the numbers that place every part."""
    numbers = {
        "air_end": BAR + PART * found.ratio,
        "air_wide": PART * found.ratio,
        "need": BAR + PART * found.need,
        "mixture": MARKS,
        "leak": 4 * MARKS * found.false_air,
        "tight": float(found.false_air <= 0),
    }
    for name in ("co2", "co", "o2", "h2"):
        high = SHARE * getattr(found.gas, name)
        numbers |= {f"{name}_high": high, f"{name}_top": FLOOR - high}
    return numbers

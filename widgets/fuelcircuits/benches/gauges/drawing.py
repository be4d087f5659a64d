"""Where the parts of the gauge bench's drawing stand, in the drawing's own units."""

from collections.abc import Mapping
from typing import Any

__all__ = ["place"]

FLOOR, KILOPASCAL = 280.0, 1.45e-3
"""Where nothing at all stands, and units for a pascal of the ladder."""
MIDDLE, WATER = 170.0, 200.0 / 2500
"""Where both legs stand level, and units for a pascal between the two."""


def place(values: Mapping[str, Any]) -> Mapping[str, float]:
    """Return the numbers that place every part."""
    outside, half = values["barometer"], WATER * values["port"] / 2
    numbers = {"left": MIDDLE + half, "right": MIDDLE - half}
    levels = {
        "air": outside,
        "manifold": max(outside - values["vacuum"], 0.0),
        "pump": outside + values["fuel_pressure"],
    }
    numbers |= {name: FLOOR - KILOPASCAL * level for name, level in levels.items()}
    for name in levels:
        numbers[f"{name}_words"] = numbers[name] + 4
    numbers["vacuum_words"] = (numbers["air"] + numbers["manifold"]) / 2 + 4
    numbers["pressure_words"] = (numbers["air"] + numbers["pump"]) / 2 + 4
    numbers["head_words"] = MIDDLE + 4
    return numbers

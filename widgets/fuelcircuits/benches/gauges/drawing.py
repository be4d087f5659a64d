"""Where the parts of the gauge bench's drawing stand, in the drawing's own units."""

from collections.abc import Mapping

from fuelcircuits.benches.gauges.found import Found

__all__ = ["FLOOR", "KILOPASCAL", "WATER", "place"]

FLOOR, KILOPASCAL = 280.0, 1.45e-3
"""Where nothing at all stands, and units for a pascal of the ladder."""
MIDDLE, WATER = 170.0, 200.0 / 2500
"""Where both legs stand level, and units for a pascal between the two."""


def place(found: Found) -> Mapping[str, float]:
    """Return the numbers that place every part."""
    levels = {
        "air": found.barometer,
        "manifold": max(found.absolute, 0.0),
        "pump": found.barometer + found.fuel_pressure,
    }
    at = {name: FLOOR - KILOPASCAL * level for name, level in levels.items()}
    half = WATER * found.port / 2
    return {
        **at,
        **{f"{name}_words": height + 4 for name, height in at.items()},
        "vacuum_words": (at["air"] + at["manifold"]) / 2 + 4,
        "pressure_words": (at["air"] + at["pump"]) / 2 + 4,
        "left": MIDDLE + half,
        "right": MIDDLE - half,
        "head_words": MIDDLE + 4,
    }

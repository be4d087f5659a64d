"""Where the parts of the cold-start drawing stand, in the drawing's own units."""

from collections.abc import Mapping

from fuelcircuits.benches.cold_start.found import Found

__all__ = ["place"]

TRAVEL, TURNS = 26.0, 7
"""Units that the disc travels, and the corners of the spring behind it."""
COLDEST, SHORTEST, LONGEST = 258.15, 2, 56
"""Temperature at the foot of the thermometer [K], and the least and most units above it."""
MARKS = 80_000.0
"""Speed of the fuel's flow marks, units a second for each kg/s."""


def place(found: Found) -> Mapping[str, float | list[float]]:
    """Return the numbers that place every part; what moves is a list over the run."""
    parts, shut = found.parts, [-TRAVEL * (1 - share) for share in found.open]
    spring = {f"coil_{i}": [291 + (43 + each) * i / 6 for each in shut] for i in range(TURNS)}
    live = [parts.pull * timed for timed in found.timed]
    return spring | {
        "shut": shut,
        "disc": [337 + each for each in shut],
        "solenoid": [90 * (1 - each) for each in live],
        "switch": [90 * (1 - each) for each in found.switched],
        "hand": [360 * min(now / parts.timer, 1.0) for now in found.times],
        "mercury": [262 - _column(each) for each in found.coolant],
        "mark": 262 - _column(parts.switch_point),
        "air": [40.0 for _ in found.times],
        "extra": [50.0 * share for share in found.open],
        "fuel": [MARKS * flow for flow in found.fuel],
        "egr": [40.0 * back for back in found.egr],
        "held_back": [float(not back) for back in found.egr],
        "timed": [float(timed) for timed in found.timed],
    }


def _column(temperature: float) -> float:
    return min(max(temperature - COLDEST, SHORTEST), LONGEST)

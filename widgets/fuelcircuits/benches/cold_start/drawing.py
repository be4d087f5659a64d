"""Where the parts of the cold-start drawing stand, in the drawing's own units."""

from collections.abc import Mapping

from fuelcircuits.benches.cold_start.found import Found, Timing

__all__ = ["place"]

TRAVEL, TURNS = 26.0, 7
"""Units that the disc travels, and the corners of the spring behind it."""
COLDEST, SHORTEST, LONGEST = 258.15, 2, 56
"""Temperature at the foot of the thermometer [K], and the least and most units above it."""
MARKS = 80_000.0
"""Speed of the fuel's flow marks, units a second for each kg/s."""


def place(timing: Timing, found: Found | None) -> Mapping[str, float | list[float]]:
    """Return the numbers that place every part; what moves is a list over the run.

    Before the run is marched, valve and fuel are left out.
    """
    parts = timing.parts
    live = [parts.pull * timed for timed in timing.timed]
    return _valve(found) | {
        "solenoid": [90 * (1 - each) for each in live],
        "switch": [90 * (1 - each) for each in timing.switched],
        "hand": [360 * min(now / parts.timer, 1.0) for now in timing.times],
        "mercury": [262 - _column(each) for each in timing.coolant],
        "mark": 262 - _column(parts.switch_point),
        "air": [40.0 for _ in timing.times],
        "egr": [40.0 * back for back in timing.egr],
        "held_back": [float(not back) for back in timing.egr],
        "timed": [float(timed) for timed in timing.timed],
    }


def _valve(found: Found | None) -> dict[str, float | list[float]]:
    """Return what places valve, idle air and fuel."""
    if found is None:
        return {}
    shut = [-TRAVEL * (1 - share) for share in found.open]
    spring: dict[str, float | list[float]] = {
        f"coil_{i}": [291 + (43 + each) * i / 6 for each in shut] for i in range(TURNS)
    }
    return spring | {
        "shut": shut,
        "disc": [337 + each for each in shut],
        "extra": [50.0 * share for share in found.open],
        "fuel": [MARKS * flow for flow in found.fuel],
    }


def _column(temperature: float) -> float:
    return min(max(temperature - COLDEST, SHORTEST), LONGEST)

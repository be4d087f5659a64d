"""What a driver does during one step, and what the car's gears make of it."""

from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

from fuelcircuits.errors import RangeError, between
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.motion.crank import NEUTRAL, Road, road

__all__ = ["GEARS", "WHEEL", "Foot", "foot_in", "road_of", "turns"]

GEARS: Mapping[str, float] = {"neutral": 0.0, "low": 12.0, "top": 3.5}
"""Turns of the engine for one of the wheels [1]; nought is out of gear."""
WHEEL = 0.31
"""Rolling radius of the wheels [m]."""
FINE = 1000
"""Steps of the pedal from end to end: a recorded one says as much, and no more."""
STEEPEST = 0.2
"""Rise of the steepest road over its length [1]."""


class Foot(NamedTuple):
    """What a driver does during one step."""

    pedal: float = 0.0  # share of its way [1], to a thousandth
    gear: str = "neutral"
    slope: float = 0.0  # rise of the road over its length [1]
    key: bool = True  # ignition on
    starter: bool = False


def foot_in(told: Sequence[Any]) -> Foot:
    """Return what a row says: pedal, gear, slope, key, starter.

    Raises
    ------
    RangeError
        If a value is none of those that there are.
    """
    if len(told) != len(Foot._fields):
        raise RangeError(f"foot must have {len(Foot._fields)} entries, got {len(told)}")
    found = Foot(*told)
    for name in ("pedal", "slope"):
        value = getattr(found, name)
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise RangeError(f"{name} must be a number, got {value!r}")
    if not isinstance(found.gear, str) or found.gear not in GEARS:
        raise RangeError(f"gear must be one of {', '.join(GEARS)}, got {found.gear}")
    pedal = between("pedal", found.pedal, 0.0, 1.0)
    slope = between("slope", found.slope, -STEEPEST, STEEPEST)
    return Foot(
        round(pedal * FINE) / FINE,
        found.gear,
        round(slope * FINE) / FINE,
        bool(found.key),
        bool(found.starter),
    )


def road_of(foot: Foot, weather: Weather) -> Road:
    """Return what hangs on the crankshaft: the car in gear, or nothing."""
    gear = GEARS[foot.gear]
    if not gear:
        return NEUTRAL
    return road(gear, wheel=WHEEL, slope=foot.slope, density=weather.density)


def turns(gear: str) -> float:
    """Return the crankshaft's speed for that of the car [rad/m]; nought out of gear."""
    return GEARS[gear] / WHEEL

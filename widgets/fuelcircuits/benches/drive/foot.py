"""What a driver does during one step, and what the car's gears make of it."""

from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

from fuelcircuits.errors import RangeError, between

__all__ = ["FINE", "GEARS", "WHEEL", "Foot", "foot_in", "turns"]

GEARS: Mapping[str, float] = {"neutral": 0.0, "low": 12.0, "top": 3.5}
"""Turns of the engine for one of the wheels [1]; nought is out of gear."""
WHEEL = 0.31
"""Rolling radius of the wheels [m]."""
FINE = 1000
"""Steps of a pedal from end to end: a recorded one says as much, and no more."""
STEEPEST = 0.2
"""Rise of the steepest road over its length [1]."""
OLDER = 5
"""Entries of a foot that leaves clutch and brake alone."""


class Foot(NamedTuple):
    """What a driver does during one step; pedals and slope to a thousandth."""

    pedal: float = 0.0  # share of its way [1]
    gear: str = "neutral"
    slope: float = 0.0  # rise of the road over its length [1]
    key: bool = True  # ignition on
    starter: bool = False
    clutch: float = 0.0  # share of its pedal's way [1]; at 1 nothing is carried
    brake: float = 0.0  # share of its most [1]

    @property
    def told(self) -> list[Any]:
        """What a trace says of it; clutch and brake are left out where they are left alone."""
        return list(self) if self.clutch or self.brake else list(self[:OLDER])


def foot_in(told: Sequence[Any]) -> Foot:
    """Return what a row says: pedal, gear, slope, key, starter, and clutch and brake if used.

    Raises
    ------
    RangeError
        If a value is none of those that there are.
    """
    whole = len(Foot._fields)
    if len(told) not in (OLDER, whole):
        raise RangeError(f"foot must have {OLDER} or {whole} entries, got {len(told)}")
    found = Foot(*told)
    if not isinstance(found.gear, str) or found.gear not in GEARS:
        raise RangeError(f"gear must be one of {', '.join(GEARS)}, got {found.gear}")
    return Foot(
        _share(found, "pedal"),
        found.gear,
        _share(found, "slope", -STEEPEST, STEEPEST),
        bool(found.key),
        bool(found.starter),
        _share(found, "clutch"),
        _share(found, "brake"),
    )


def _share(found: Foot, name: str, low: float = 0.0, high: float = 1.0) -> float:
    """Return a number of a foot to a thousandth, or raise `RangeError`."""
    value = getattr(found, name)
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise RangeError(f"{name} must be a number, got {value!r}")
    return round(between(name, value, low, high) * FINE) / FINE


def turns(gear: str) -> float:
    """Return the crankshaft's speed for that of the car [rad/m]; nought out of gear."""
    return GEARS[gear] / WHEEL

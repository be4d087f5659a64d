"""Parts of the driven carburettor that have a bench of their own, at the state of a moment."""

from collections.abc import Mapping
from typing import NamedTuple

from fuelcircuits.benches import bench_class, class_name
from fuelcircuits.benches.drive.driven import Driven
from fuelcircuits.benches.drive.row import Row
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.physics.openings.plate import OPEN

__all__ = ["PARTS", "Opened", "opened"]

PARTS: Mapping[str, str] = {
    "air_path": "throttle and venturi",
    "float_bowl": "float",
    "low_speed": "low-speed circuit",
    "off_idle": "slot and ports",
    "high_speed": "main nozzle",
    "power": "metering rod",
    "pump": "pump",
    "choke": "choke",
    "exhaust": "exhaust",
}
"""The stem of each part's bench, with what the part is called."""
FEW = 4
"""Figures to which a value is told."""


class Opened(NamedTuple):
    """A part's bench at the state of a moment."""

    stem: str
    values: dict[str, float]  # of those controls that a moment sets, in SI
    line: str  # of Python, that opens it in a notebook


def opened(stem: str, driven: Driven, row: Row) -> Opened:
    """Return how a part's bench stands at a moment; a fault stays on the drive.

    Parameters
    ----------
    stem
        One of PARTS.
    driven, row
        The car, and the moment.
    """
    kind = bench_class(stem)
    controls = kind.controls()
    values = {
        name: _within(controls[name], value) for name, value in _values(driven, row)[stem].items()
    }
    given = ["rig"] if kind.needs_rig else []
    told = "; ".join(
        [f"bench = {class_name(stem)}({', '.join(given)})"]
        + [f"bench.{name} = {value!r}" for name, value in values.items()]
        + ["bench"]
    )
    return Opened(stem, values, told)


def _within(control: Control, value: float) -> float:
    """Return a value to a few figures, inside the ends of its control."""
    return min(max(float(f"{value:.{FEW}g}"), control.low), control.high)


def _values(driven: Driven, row: Row) -> dict[str, dict[str, float]]:
    """Return what a moment says of each bench's controls."""
    stop, outing = driven.car.stop, driven.outing
    opening = (row.throttle - stop) / (OPEN - stop)
    return {
        "air_path": {
            "throttle": row.throttle,
            "speed": row.speed,
            "choke_angle": row.choke,
            "altitude": outing.altitude,
        },
        "float_bowl": {"demand": row.fuel},
        "low_speed": {},
        "off_idle": {"throttle": row.throttle},
        "high_speed": {"throttle": opening, "altitude": outing.altitude},
        "power": {"throttle": opening, "speed": row.speed},
        "pump": {"speed": row.speed, "coolant": row.coolant},
        "choke": {"outside": outing.outside, "speed": row.speed},
        "exhaust": {"petrol_lambda": row.mixture},
    }

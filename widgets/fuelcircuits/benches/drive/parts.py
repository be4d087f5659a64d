"""Parts of the driven carburettor that have a bench of their own, at the state of a moment."""

from collections.abc import Mapping
from typing import NamedTuple

from fuelcircuits.benches import bench_class, class_name
from fuelcircuits.benches.drive.driven import Driven
from fuelcircuits.benches.drive.row import Row

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
    found = {name: each for name, each in _values(driven, row)[stem].items()}
    controls = kind.controls()
    values = {
        name: float(f"{min(max(value, controls[name].low), controls[name].high):.{FEW}g}")
        for name, value in found.items()
    }
    values = {name: min(max(value, controls[name].low), controls[name].high) for name, value in values.items()}
    given = ["rig"] if kind.needs_rig else []
    told = "; ".join(
        [f"bench = {class_name(stem)}({', '.join(given)})"]
        + [f"bench.{name} = {value!r}" for name, value in values.items()]
        + ["bench"]
    )
    return Opened(stem, values, told)


def _values(driven: Driven, row: Row) -> dict[str, dict[str, float]]:
    """Return what a moment says of each bench's controls."""
    stop, outing = driven.car.stop, driven.outing
    opening = (row.throttle - stop) / (1.5707 - stop)
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

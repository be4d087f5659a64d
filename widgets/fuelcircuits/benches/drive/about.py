"""What the browser needs to build the bench of the driven carburettor."""

from collections.abc import Mapping
from math import pi
from typing import Any

from fuelcircuits.benches.carburettor.measures import ALTITUDE, WATER
from fuelcircuits.benches.drive.dials import ROAD_SPEED, gauges
from fuelcircuits.benches.drive.driven import STEP
from fuelcircuits.benches.drive.foot import GEARS
from fuelcircuits.benches.drive.journeys import JOURNEYS
from fuelcircuits.benches.drive.judging import TASKS
from fuelcircuits.benches.drive.outing import ENGINES, Outing, cars
from fuelcircuits.benches.drive.parts import parts_of
from fuelcircuits.benches.drive.row import Row
from fuelcircuits.benches.drive.running import EVERY
from fuelcircuits.benches.drive.trace import LONGEST
from fuelcircuits.benches.frame.measure import (
    FLOW,
    RATIO,
    SECONDS,
    SHARE,
    SPEED,
    TEMPERATURE,
    VACUUM,
    Measure,
)
from fuelcircuits.faults import find, fitting
from fuelcircuits.physics.network.rig import Rig

__all__ = ["about"]

PULL = 7.6e5
"""Mean pressure of a good engine at full throttle, by which its sound is loud [Pa]."""
MEASURES: Mapping[str, Measure] = {
    "fuel": FLOW,
    "mixture": RATIO,
    "speed": SPEED,
    "pedal": SHARE,
    "road": ROAD_SPEED,
    "vacuum": VACUUM,
    "port": WATER,
    "altitude": ALTITUDE,
    "outside": TEMPERATURE,
    "time": SECONDS,
}


def about(rig: Rig, outing: Outing) -> dict[str, Any]:
    """Return all that is known before anybody drives, but for title and drawing."""
    return {
        "rig": rig.name,
        "step": STEP,
        "every": EVERY,
        "longest": LONGEST,
        "rows": list(Row._fields),
        "gears": list(GEARS),
        "engines": dict(ENGINES),
        "faults": {name: find(name).meaning for name in fitting(rig, around=True)},
        "journeys": _journeys(),
        "parts": {stem: part.name for stem, part in parts_of(rig).items()},
        "measures": {name: each.wire() for name, each in MEASURES.items()},
        "gauges": gauges(rig),
        "cylinders": round(rig.engine.cylinders),
        "torque": PULL * rig.engine.displacement / (4 * pi),
        "cars": {name: f"car {number} of the yard" for name, number in cars(rig).items()},
        "outing": outing.named,
    }


def _journeys() -> dict[str, dict[str, Any]]:
    """Return every set journey, and whether a drive of one's own is held to limits."""
    return {
        name: {"title": each.title, "look": each.look, "limits": name in TASKS}
        for name, each in JOURNEYS.items()
    }

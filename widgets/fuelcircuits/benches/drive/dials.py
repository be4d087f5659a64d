"""The dials of the driven carburettor, and where their needles stand."""

from typing import Any

from fuelcircuits.benches.carburettor.measures import WATER
from fuelcircuits.benches.drive.row import BREATH, Row
from fuelcircuits.benches.frame.measure import RATIO, SPEED, VACUUM, Measure, measure
from fuelcircuits.physics.network.rig import Rig

__all__ = ["ROAD_SPEED", "gauges", "needles"]

ROAD_SPEED = measure("m/s", ("km/hour", 0), ("mile/hour", 0))


def gauges(rig: Rig) -> list[dict[str, Any]]:
    """Return the dials as the browser takes them, without their needles."""
    every: tuple[tuple[str, Measure, float, float], ...] = (
        ("Engine speed", SPEED, 0.0, rig.engine.highest_speed),
        ("Manifold vacuum", VACUUM, 0.0, 90e3),
        ("Idle-port vacuum", WATER, 0.0, 7472.7),
        ("Lambda in the cylinders", RATIO, 0.4, 1.6),
        ("Road speed", ROAD_SPEED, 0.0, 45.0),
    )
    return [
        {"label": label, "measure": kind.wire(), "low": low, "high": high, "accuracy": 0.0}
        for label, kind, low, high in every
    ]


def needles(row: Row) -> list[float | None]:
    """Return where the needles of the dials stand; that of lambda nowhere without air."""
    mixture = row.mixture if row.air > BREATH else None
    return [row.speed, row.vacuum, row.port, mixture, row.road_speed]

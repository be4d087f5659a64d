"""Drives that several tests look at."""

from collections.abc import Mapping
from functools import cache

from fuelcircuits.benches.drive.foot import Foot
from fuelcircuits.benches.drive.journeys import JOURNEYS, trace_of
from fuelcircuits.benches.drive.outing import Outing
from fuelcircuits.benches.drive.row import Row
from fuelcircuits.benches.drive.trace import Trace, drive
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.network.rig import Rig

from tests.places import RIGS

__all__ = ["CARDS", "driven", "journey", "short"]

CARDS: Mapping[str, Rig] = {name: read_rig(RIGS / f"{name}.toml") for name in ("plover", "dunlin")}


def short(rig: str = "plover", **outing: object) -> Trace:
    """Return a trace of a second: a pedal pressed in low gear, let go, the key off and on."""
    feet = [Foot(0.0)] * 5 + [Foot(0.3, "low", 0.05)] * 25 + [Foot(0.0, "top")] * 10
    feet += [Foot(0.0, key=False)] * 5 + [Foot(0.1, starter=True)] * 5
    return Trace(Outing(rig=rig, **outing), tuple(feet))  # type: ignore[arg-type]


@cache
def driven(trace: Trace) -> list[Row]:
    """Return what a trace comes to."""
    return drive(trace, CARDS[trace.outing.rig])


@cache
def journey(name: str, rig: str, fault: str = "", seconds: float = 60.0) -> list[Row]:
    """Return a set journey, or its beginning, with a fault or without."""
    trace = trace_of(JOURNEYS[name], rig)
    feet = trace.feet[: round(seconds / 0.02)]
    return driven(Trace(trace.outing._replace(fault=fault), feet))

"""Set journeys: the same outing and the same feet for everybody, to see and to compare."""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from fuelcircuits.benches.drive.driven import STEP
from fuelcircuits.benches.drive.foot import FINE, Foot
from fuelcircuits.benches.drive.outing import Outing
from fuelcircuits.benches.drive.trace import Trace

__all__ = ["JOURNEYS", "Journey", "Leg", "trace_of"]


class Leg(NamedTuple):
    """A straight piece of a journey; the pedals go evenly to where they are at its end."""

    seconds: float
    pedal: float
    gear: str = "neutral"
    slope: float = 0.0
    starter: bool = False
    clutch: float = 0.0
    brake: float = 0.0


class Journey(NamedTuple):
    """A set journey."""

    title: str
    look: str
    """What there is to be seen in it."""
    outing: Outing
    legs: tuple[Leg, ...]


JOURNEYS: Mapping[str, Journey] = {
    "floored": Journey(
        "Floored from a walking pace",
        "Vacuum collapses and the wall drinks: does the pump cover it?",
        Outing(speed=83.8, pedal=0.03, gear="top"),
        (Leg(2.0, 0.03, "top"), Leg(0.2, 1.0, "top"), Leg(5.8, 1.0, "top")),
    ),
    "pull-away": Journey(
        "Pull away",
        "Screws, slots, main nozzles: who feeds when, and who helps in between?",
        Outing(),
        (
            Leg(3.0, 0.0),
            Leg(0.5, 0.25, "low"),
            Leg(3.5, 0.25, "low"),
            Leg(0.3, 0.0, "low"),
            Leg(0.3, 0.2, "top"),
            Leg(5.4, 0.2, "top"),
            Leg(0.2, 0.0, "top"),
            Leg(1.8, 0.0, "top"),
        ),
    ),
    "lights": Journey(
        "At the lights",
        "Idle in gear, clutch down; away; on; the foot off, the brake, and idle again.",
        Outing(),
        (
            Leg(0.4, 0.0, clutch=1.0, brake=0.3),
            Leg(2.6, 0.0, "low", clutch=1.0, brake=0.3),
            Leg(0.4, 0.12, "low", clutch=0.9),
            Leg(1.4, 0.15, "low"),
            Leg(2.4, 0.3, "low"),
            Leg(0.2, 0.0, "low", clutch=1.0),
            Leg(0.2, 0.0, "top", clutch=1.0),
            Leg(0.6, 0.2, "top"),
            Leg(3.4, 0.2, "top"),
            Leg(0.4, 0.0, "top", brake=0.5),
            Leg(0.8, 0.0, "top", brake=0.5),
            Leg(0.2, 0.0, "top", clutch=1.0, brake=0.5),
            Leg(4.0, 0.0, clutch=1.0, brake=0.5),
        ),
    ),
    "overtake": Journey(
        "Overtake",
        "The rods rise as the vacuum falls: power on top of the main jets.",
        Outing(speed=167.6, pedal=0.08, gear="top"),
        (
            Leg(2.0, 0.08, "top"),
            Leg(0.3, 1.0, "top"),
            Leg(6.7, 1.0, "top"),
            Leg(0.3, 0.1, "top"),
            Leg(2.7, 0.1, "top"),
        ),
    ),
    "hill": Journey(
        "A hill",
        "The road rises by 8 in 100, and the pedal follows: when do the rods lift?",
        Outing(speed=209.4, pedal=0.12, gear="top"),
        (
            Leg(2.0, 0.12, "top"),
            Leg(2.0, 0.25, "top", 0.04),
            Leg(4.0, 0.25, "top", 0.08),
            Leg(1.0, 0.6, "top", 0.08),
            Leg(5.0, 0.6, "top", 0.08),
            Leg(0.4, 0.05, "top"),
            Leg(3.6, 0.05, "top"),
        ),
    ),
    "hot-idle": Journey(
        "Idle after a hot stop",
        "The engine has stood for a quarter of an hour, and the bowl has boiled.",
        Outing(outside=303.15, engine="hot"),
        (
            Leg(0.6, 0.0),
            Leg(0.4, 0.1, starter=True),
            Leg(4.6, 0.1, starter=True),
            Leg(0.4, 0.03),
            Leg(2.0, 0.03),
            Leg(0.4, 0.0),
            Leg(9.0, 0.0),
        ),
    ),
    "cold-start": Journey(
        "Cold start",
        "Choke shut, fast-idle cam, little vapour: what does the engine get of its fuel?",
        Outing(outside=268.15, engine="cold"),
        (
            Leg(0.6, 0.0),
            Leg(2.0, 0.0, starter=True),
            Leg(9.4, 0.0),
            Leg(0.5, 0.2, "low"),
            Leg(4.5, 0.2, "low"),
            Leg(0.3, 0.0, "low"),
            Leg(2.7, 0.0),
        ),
    ),
    "complaint": Journey(
        "The complaint of car 3",
        "“Something is not right with it.” Driven gently it shows little. With your own foot: "
        "where does it show, and would a healthy car do it too?",
        Outing(fault="car-3"),
        (
            Leg(3.0, 0.0),
            Leg(2.0, 0.12, "low"),
            Leg(3.0, 0.25, "low"),
            Leg(0.4, 0.2, "low"),
            Leg(3.6, 0.2, "top"),
        ),
    ),
}
"""Every set journey by its name."""


def trace_of(journey: Journey, rig: str) -> Trace:
    """Return the trace of a journey with a rig of that name."""
    return Trace(journey.outing._replace(rig=rig), tuple(_feet(journey)))


def _feet(journey: Journey) -> Iterator[Foot]:
    before = (journey.outing.pedal, 0.0, 0.0)
    for leg in journey.legs:
        after, count = (leg.pedal, leg.clutch, leg.brake), round(leg.seconds / STEP)
        for at in range(1, count + 1):
            shares = zip(before, after, strict=True)
            pedal, clutch, brake = (_fine(old + (new - old) * at / count) for old, new in shares)
            yield Foot(pedal, leg.gear, leg.slope, True, leg.starter, clutch, brake)
        before = after


def _fine(share: float) -> float:
    return round(share * FINE) / FINE

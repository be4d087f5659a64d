"""Drives that several tests look at."""

from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from math import pi
from typing import Any

from fuelcircuits.cards import read_rig
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.motion.crank import NEUTRAL, Road, road
from fuelcircuits.physics.motion.drive import drive
from fuelcircuits.physics.motion.moving import Car, Controls, Motion
from fuelcircuits.physics.motion.pedal import Leg
from fuelcircuits.physics.motion.soak_run import soak_run
from fuelcircuits.physics.motion.start import Start, begun, set_up
from fuelcircuits.physics.network.rig import Rig

from tests.places import RIGS

__all__ = [
    "DAY",
    "RIGS_BY_NAME",
    "RPM",
    "car",
    "cranked",
    "disconnected",
    "freely",
    "tipped",
    "town",
    "warmed",
]

RPM = 2 * pi / 60
DAY = Weather.at(0.0, 298.15)
RIGS_BY_NAME: Mapping[str, Rig] = {
    name: read_rig(RIGS / f"{name}.toml") for name in ("plover", "dunlin")
}


def disconnected(rig: Rig) -> Rig:
    """Return a rig whose pump gives nothing."""
    return replace(rig, pump=replace(rig.pump, linkage_rate=0.0))


@cache
def car(name: str, *, pump: bool = True, outside: float = 298.15) -> Car:
    """Return a car, with or without its pump."""
    whole = set_up(RIGS_BY_NAME[name], Weather.at(0.0, outside))
    return whole if pump else whole._replace(rig=disconnected(whole.rig))


@cache
def tipped(
    name: str,
    before: float,
    after: float,
    rpm: float,
    *,
    pump: bool = True,
    movement: float = 0.2,
    coolant: float | None = None,
    hold: float = 3.0,
    old_film: bool = False,
) -> list[Motion]:
    """Return a movement of the pedal after 0.3 s, the speed held."""
    stand, warm = _stand(name, pump=pump, old_film=old_film), Start.warm(RIGS_BY_NAME[name], DAY)
    if coolant is not None:
        warm = warm._replace(coolant=coolant)
    first, last = Controls(before, rpm * RPM), Controls(after, rpm * RPM)
    legs = [Leg(0.3, first), Leg(movement, last), Leg(hold, last)]
    return drive(stand, begun(stand, warm, first), legs, first)


def _stand(name: str, *, pump: bool, old_film: bool) -> Car:
    whole = car(name, pump=pump)
    if not old_film:
        return whole
    powers = ("share_by_pressure", "share_by_air", "time_by_pressure", "time_by_air")
    plain: dict[str, Any] = dict.fromkeys(powers, 0.0)
    film = replace(whole.rig.wall_film, wetting_share=0.45, warm_time=0.8, **plain)
    return whole._replace(rig=replace(whole.rig, wall_film=film))


@cache
def freely(
    name: str,
    before: float,
    rpm: float,
    *,
    pump: bool = True,
    extra: float = 0.0,
    loaded: bool = False,
    coolant: float | None = None,
    old_film: bool = False,
    after: float = 1.0,
) -> list[Motion]:
    """Return a pedal floored within 0.2 s after 0.3 s, the crankshaft free.

    `extra` is the inertia of the car [kg m2]; loaded, the road takes what the engine gives at
    first.
    """
    whole, warm = _stand(name, pump=pump, old_film=old_film), Start.warm(RIGS_BY_NAME[name], DAY)
    if coolant is not None:
        warm = warm._replace(coolant=coolant)
    begin = begun(whole, warm, Controls(before, rpm * RPM))
    way = Road(extra, begin.burning.torque if loaded else 0.0)
    first, last = Controls(before, road=way), Controls(after, road=way)
    return drive(whole, begin, [Leg(0.3, first), Leg(0.2, last), Leg(2.0, last)], first)


@cache
def cranked(
    name: str, outside: float, *, soaked: float = 0.0, seconds: float = 8.0
) -> list[Motion]:
    """Return a start, cold or after a hot soak, the pedal left alone."""
    whole = car(name, outside=outside)
    start = Start.cold(whole.weather)
    if soaked:
        run = soak_run(whole.rig, whole.weather, Fuel(), [0.0, soaked])
        start = Start.after(whole.rig, run)
    key = Controls(starter=True)
    legs = [Leg(1.5, key), Leg(seconds, Controls())]
    return drive(whole, begun(whole, start), legs, key)


@cache
def warmed(name: str, outside: float) -> list[Motion]:
    """Return three seconds on the starter, and two and a half minutes, the pedal tapped twice."""
    whole = car(name, outside=outside)
    key, off, tap = Controls(starter=True), Controls(), Controls(0.12)
    tapped = [Leg(0.4, tap), Leg(0.2, off), Leg(2.0, off, 0.04), Leg(55.0, off, 0.25)]
    legs = [Leg(3.0, key), Leg(4.0, off), Leg(54.0, off, 0.25), *tapped, *tapped]
    return drive(whole, begun(whole, Start.cold(whole.weather)), legs, key)


@cache
def town(name: str) -> list[Motion]:
    """Return a drive away from the kerb, a lift, a stop of the engine, and a start again."""
    whole, second = car(name), road(7.0)
    legs = [
        Leg(1.0, Controls()),
        Leg(0.3, Controls(0.4, road=second)),
        Leg(2.0, Controls(0.5, road=second)),
        Leg(0.3, Controls(0.0, road=second)),
        Leg(1.5, Controls(0.0, road=NEUTRAL)),
        Leg(1.0, Controls(0.0, ignition=False)),
        Leg(1.6, Controls(starter=True)),
        Leg(0.5, Controls()),
    ]
    return drive(whole, begun(whole, Start.warm(whole.rig, DAY)), legs, Controls())

"""What the bench around the carburettor works out: one engine, and all that is wrong about it."""

from collections.abc import Mapping
from contextlib import suppress
from dataclasses import replace
from functools import lru_cache
from typing import Any, NamedTuple

from fuelcircuits.diagnosis.checks import find
from fuelcircuits.diagnosis.idling import FALLING
from fuelcircuits.diagnosis.subject import IDLE, Subject, Warmed, shown_lambda, warmed
from fuelcircuits.errors import CircuitError, ConvergenceError
from fuelcircuits.physics.engine.needle import cycle, strokes
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig

__all__ = ["HELD_AIR", "LASTS", "Found", "whole"]

HELD_AIR = 6.5
"""Air of a held 2500 rpm for each volume of the engine [kg/(s m3)], on the teaching rigs."""
LASTS = 0.6
"""How long the needle is watched [s]."""
COUNT = 121


class Needle(NamedTuple):
    """What an undamped vacuum gauge shows: times [s], vacuum [Pa], and a healthy engine's."""

    time: list[float]
    vacuum: list[float]
    healthy: list[float]


class Found(NamedTuple):
    """One setting of the bench."""

    late: float  # rad, spark behind the card's
    dead: float  # share of one cylinder's work that is lost [1]
    hose: float  # m2
    back: float  # m2 that let exhaust in
    blocked: float  # Pa before the exhaust at about a held 2500 rpm
    turns: float  # of the mixture screws
    speed: float  # rad/s at idle; none where it stalls
    vacuum: float  # Pa at that idle
    usual: float  # Pa, of a healthy engine
    lost: float  # rad/s, the least when one cylinder after another is put out
    swing: float  # Pa
    mixture: float  # lambda at idle; that at the card's idle speed where it stalls
    held: float  # Pa of vacuum at a held 2500 rpm
    before: float  # Pa before the exhaust then
    pull: float  # at full load, of the card's [1]
    needle: Needle


def whole(card: Rig, values: Mapping[str, Any]) -> Found:
    """Return all that is read on the engine, and the needle's way."""
    sound = _sound(card)
    healthy, car = sound.warmed, _car(sound, values)
    swing, idle = _read("needle-swing", car), car.left_alone
    vacuum = _read("free-vacuum", car)
    return Found(
        late=values["spark_late"],
        dead=values["weak"],
        hose=values["hose"],
        back=values["recirculation"],
        blocked=values["exhaust"],
        turns=values["screw_turns"],
        speed=_read("free-idle", car),
        vacuum=vacuum,
        usual=healthy.states[IDLE].manifold_vacuum,
        lost=_read("one-cylinder-out", car),
        swing=swing,
        mixture=shown_lambda(idle or car.running(IDLE)),
        held=_read("held-vacuum", car),
        before=_read("exhaust-pressure", car),
        pull=_read("pull", car),
        needle=_needle(car, healthy),
    )


@lru_cache(maxsize=8)
def _sound(card: Rig) -> Subject:
    """Return the car of the card, with the states solved that every reading starts from."""
    sound = Subject(warmed(card, Weather.at(), Fuel()), card, sharp=True)
    usual = sound.warmed.states[IDLE].speed
    for speed in (share * usual for share in FALLING):
        with suppress(ConvergenceError):
            sound.on_stop.at(speed)
    for name in ("held-vacuum", "pull"):
        _read(name, sound)
    return sound


def _car(sound: Subject, values: Mapping[str, Any]) -> Subject:
    """Return the car with all that is wrong about it."""
    card = sound.rig
    engine = replace(
        card.engine,
        spark_late=values["spark_late"],
        dead_cylinders=values["weak"],
        recirculation=values["recirculation"],
        exhaust_resistance=values["exhaust"] / (HELD_AIR * card.engine.displacement) ** 2,
    )
    path = replace(card.air_path, hose_leak=values["hose"])
    low = replace(card.low_speed, screw_turns=_turns(card, values["screw_turns"]))
    return sound.changed(engine=engine, air_path=path, low_speed=low)


def _turns(card: Rig, turns: float) -> float:
    """Return the screw's turns, between the card's limiters where it has them."""
    return min(max(turns, card.low_speed.fewest_turns), card.low_speed.most_turns)


def _read(name: str, car: Subject) -> float:
    """Return a reading of a check [SI]; nought of an engine that will not run there."""
    try:
        return find(name).read(car)
    except CircuitError:
        return 0.0


def _needle(car: Subject, healthy: Warmed) -> Needle:
    """Return how the needle moves for a while."""
    time = [LASTS * step / (COUNT - 1) for step in range(COUNT)]
    usual = healthy.states[IDLE].manifold_vacuum
    idle = car.left_alone
    if idle is None:
        return Needle(time, [0.0] * COUNT, [usual] * COUNT)
    along, lasts = strokes(car.rig.engine, idle.speed, idle.pressures.manifold), cycle(idle.speed)
    steps = len(along) - 1
    places = [round(steps * (now % lasts) / lasts) for now in time]
    vacuum = [idle.ambient_pressure - along[place] for place in places]
    return Needle(time, vacuum, [usual] * COUNT)

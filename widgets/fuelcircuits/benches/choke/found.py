"""A warm-up: a cold engine at a held speed, with the choke opening as its coil is heated."""

from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache
from itertools import pairwise
from math import radians
from typing import Any, NamedTuple

from fuelcircuits.benches.carburettor.running import PETROL, card_state
from fuelcircuits.diagnosis.march import March, finished
from fuelcircuits.physics.circuits.choke import Choke, coil_step, fast_idle, pull_off, rest_angle
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.motion.coolant import coolant_step
from fuelcircuits.physics.motion.moving import Car, Controls, Motion
from fuelcircuits.physics.motion.start import Start, begun
from fuelcircuits.physics.motion.step import stepped
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.state import State
from fuelcircuits.physics.numerics.interpolation import linspace

__all__ = ["END", "FIRED", "Found", "Sizes", "Warming", "pieces", "point", "whole"]

END, COUNT = 480.0, 61
"""End of the run after the key was turned [s], and its points [1]."""
FIRED, CATCHING = 2.0, 10
"""When the first point is [s], and the steps until then: plate and wall have found themselves."""
GROWING = 1.5
"""Power with which the time to a step, and then to a point, grows [1]."""
TIMES = tuple(FIRED + (END - FIRED) * share**GROWING for share in linspace(0.0, 1.0, COUNT))
"""Times of the run [s]."""
BEFORE = tuple(FIRED * share**GROWING for share in linspace(0.0, 1.0, CATCHING + 1))
SPANS = tuple(after - before for before, after in pairwise((*BEFORE, *TIMES[1:])))
"""Length of every step [s]."""
MILD = 105.0
"""Speed at which a network is sought from which others are found [rad/s]."""
WIDE = radians(75)
"""Plate angle that counts as open [rad]."""


class Sizes(NamedTuple):
    """Sizes of horn, plate and cam."""

    horn: float  # m
    offset: float  # m
    closed: float  # rad, of the choke plate
    pulled: float  # rad, to which the pull-off brings it
    throttle: float  # rad, of the throttle plate shut
    edges: tuple[float, ...]  # rad of the choke plate at the end of each step of the cam
    openings: tuple[float, ...]  # rad of throttle on each


class Warming(NamedTuple):
    """What coil and coolant do, which is known before anything is marched."""

    sizes: Sizes
    heated: bool
    times: list[float]  # s
    coil: list[float]  # K
    coolant: list[float]  # K
    rest: list[float]  # rad, where the coil alone would hold the plate


class Found(NamedTuple):
    """One setting of the bench; every list runs over the times."""

    warming: Warming
    opens: float | None  # s, when the choke is open
    plate: list[float]  # rad
    held: list[float]  # rad, where the pull-off holds it at least
    step: list[int]  # of the cam, 0 for the first
    cam: list[float]  # rad of throttle by it
    throttle: list[float]  # rad
    share: list[float]  # of the fuel that burns in time
    mixture: list[float]  # lambda delivered
    burns: list[float]  # lambda of that
    vacuum: list[float]  # Pa, manifold
    air: list[float]  # kg/s
    fuel: list[float]  # kg/s


def point(card: Rig, values: Mapping[str, Any]) -> Warming:
    """Return how coil and coolant warm."""
    return _warming(_car(card, values), heated=values["heat"] == "on")


def whole(card: Rig, values: Mapping[str, Any]) -> Found:
    """Return eight minutes of warm-up."""
    return finished(pieces(card, values))


def pieces(card: Rig, values: Mapping[str, Any]) -> March[Found]:
    """Work the same out, a step a piece."""
    car, closed = _car(card, values), card.air_path.choke_closed_angle
    run = yield from _run(card, car, values["speed"], tapped=values["pedal"] == "tapped")
    choke, plate = car.rig.choke, [each.choke for each in run]
    cams = (*choke.cam_openings, 0.0)
    return Found(
        warming=_warming(car, heated=values["heat"] == "on"),
        opens=next((now for now, angle in zip(TIMES, plate, strict=True) if angle >= WIDE), None),
        plate=plate,
        held=[pull_off(choke, each.vacuum, closed) for each in run],
        step=[cams.index(each.cam) for each in run],
        cam=[each.cam for each in run],
        throttle=[each.throttle for each in run],
        share=[each.burning.burnable for each in run],
        mixture=[each.delivered for each in run],
        burns=[each.burning.burnt for each in run],
        vacuum=[each.vacuum for each in run],
        air=[each.burning.air for each in run],
        fuel=[each.metered for each in run],
    )


def _car(card: Rig, values: Mapping[str, Any]) -> Car:
    """Return the car on the stand, its choke as it has been changed."""
    stop = card_state(card, "idle").throttle_angle
    rig = replace(card, choke=_choke(card, values))
    return Car(rig, Weather.at(values["altitude"], values["outside"]), PETROL, stop)


def _warming(car: Car, *, heated: bool) -> Warming:
    """Return how coil and coolant warm, by the very steps of the run."""
    choke, outside, start = car.rig.choke, car.weather.temperature, Start.cold(car.weather)
    coils, coolants = [start.coil], [start.coolant]
    for span in SPANS:
        coils.append(coil_step(choke, coils[-1], outside, span))
        coolants.append(coolant_step(car.rig.hot_soak, coolants[-1], outside, span, running=True))
    coil = coils[CATCHING:]
    closed = car.rig.air_path.choke_closed_angle
    return Warming(
        sizes=_sizes(car.rig, choke),
        heated=heated,
        times=list(TIMES),
        coil=coil,
        coolant=coolants[CATCHING:],
        rest=[rest_angle(choke, each, closed) for each in coil],
    )


def _choke(card: Rig, values: Mapping[str, Any]) -> Choke:
    """Return the card's choke as it has been changed."""
    return replace(
        card.choke,
        slack=card.choke.slack + values["turned"],
        plate_offset=values["offset"],
        pull_off_leak=1.0 if values["pull_off"] == "torn" else 0.0,
        heat_rise=card.choke.heat_rise if values["heat"] == "on" else 0.0,
    )


def _sizes(card: Rig, choke: Choke) -> Sizes:
    path = card.air_path
    return Sizes(
        path.horn_bore,
        choke.plate_offset,
        path.choke_closed_angle,
        choke.pull_off_angle,
        path.throttle_closed_angle,
        choke.cam_edges,
        choke.cam_openings,
    )


def _run(card: Rig, car: Car, speed: float, *, tapped: bool) -> March[list[Motion]]:
    """Work out everything at each time, the crankshaft held at a speed.

    The start itself lets the cam fall, as later on a tap on the pedal does.
    """
    held, start = Controls(speed=speed), Start.cold(car.weather)
    run = [begun(car, start._replace(near=_near(card)))]
    for number, span in enumerate(SPANS):
        now = stepped(car, run[-1], held, span, drawn=True)
        if (tapped or number < CATCHING) and _lets_fall(car, now) < now.cam:
            low = run[-1]._replace(cam=_lets_fall(car, now))
            now = stepped(car, low, held, span, drawn=True)
        run.append(now)
        yield (number + 1) / len(SPANS)
    return run[CATCHING:]


@lru_cache(maxsize=16)
def _near(card: Rig) -> State:
    """Return the network as the card's own choke leaves it in the first step of a mild day."""
    car = Car(card, Weather.at(), PETROL, card_state(card, "idle").throttle_angle)
    now = begun(car, Start.cold(car.weather))
    return stepped(car, now, Controls(speed=MILD), SPANS[0], drawn=True).network


def _lets_fall(car: Car, now: Motion) -> float:
    """Return where the choke plate lets the cam fall to [rad]."""
    return fast_idle(car.rig.choke, now.choke)

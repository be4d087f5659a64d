"""A warm-up: a cold engine at a held speed, with the choke opening as its coil is heated."""

from collections.abc import Mapping
from dataclasses import replace
from itertools import pairwise
from math import radians
from typing import Any, NamedTuple

from fuelcircuits.benches.carburettor.running import PETROL, card_state
from fuelcircuits.physics.circuits.choke import Choke, fast_idle, pull_off, rest_angle
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.motion.start import Start, begun
from fuelcircuits.physics.motion.step import Car, Controls, Motion, stepped
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.numerics.interpolation import linspace

__all__ = ["END", "FIRED", "Found", "Sizes", "whole"]

END, COUNT = 480.0, 61
"""End of the run after the key was turned [s], and its points [1]."""
FIRED, CATCHING = 2.0, 16
"""When the first point is [s], and the steps until then: plate and wall have found themselves."""
BETWEEN = 2
"""Steps from one point to the next [1]."""
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


class Found(NamedTuple):
    """One setting of the bench; every list runs over the times."""

    sizes: Sizes
    heated: bool
    opens: float | None  # s, when the choke is open
    times: list[float]  # s
    coil: list[float]  # K
    coolant: list[float]  # K
    rest: list[float]  # rad, where the coil alone would hold the plate
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


def whole(card: Rig, values: Mapping[str, Any]) -> Found:
    """Return eight minutes of warm-up."""
    choke, closed = _choke(card, values), card.air_path.choke_closed_angle
    times = [FIRED + (END - FIRED) * share**1.5 for share in linspace(0.0, 1.0, COUNT)]
    air = Weather.at(temperature=values["outside"])
    stop = card_state(card, "idle").throttle_angle
    car = Car(replace(card, choke=choke), air, PETROL, stop)
    run = _run(car, times, values["speed"], tapped=values["pedal"] == "tapped")
    cams, plate = (*choke.cam_openings, 0.0), [each.choke for each in run]
    return Found(
        sizes=_sizes(card, choke),
        heated=values["heat"] == "on",
        opens=next((now for now, angle in zip(times, plate, strict=True) if angle >= WIDE), None),
        times=times,
        coil=[each.coil for each in run],
        coolant=[each.coolant for each in run],
        rest=[rest_angle(choke, each.coil, closed) for each in run],
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


def _run(car: Car, times: list[float], speed: float, *, tapped: bool) -> list[Motion]:
    """Return everything at each time, the crankshaft held at a speed.

    The start itself lets the cam fall, as later on a tap on the pedal does.
    """
    held, now = Controls(speed=speed), begun(car, Start.cold(car.weather))
    for _ in range(CATCHING):
        now = stepped(car, _let_fall(car, now), held, FIRED / CATCHING)
    run = [now]
    for before, after in pairwise(times):
        for _ in range(BETWEEN):
            ready = _let_fall(car, now) if tapped else now
            now = stepped(car, ready, held, (after - before) / BETWEEN)
        run.append(now)
    return run


def _let_fall(car: Car, now: Motion) -> Motion:
    """Return everything with the cam where the choke plate lets it fall to."""
    return now._replace(cam=min(now.cam, fast_idle(car.rig.choke, now.choke)))

"""What the hot-soak bench works out at one setting: the hour, with the start at each moment."""

from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache
from typing import Any, NamedTuple

from fuelcircuits.benches.carburettor.running import card_state
from fuelcircuits.diagnosis.march import March, finished
from fuelcircuits.physics.circuits.bowl_vents import Openings, Vents
from fuelcircuits.physics.circuits.canister import Canister
from fuelcircuits.physics.circuits.hot_soak import outlets
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.motion.moving import Car
from fuelcircuits.physics.motion.restart import Cranked, cranked
from fuelcircuits.physics.motion.soak_run import SoakRun, soak_run
from fuelcircuits.physics.motion.start import Start
from fuelcircuits.physics.network.rig import ABSENT, Rig
from fuelcircuits.physics.numerics.interpolation import interpolate, linspace

__all__ = ["APART", "COUNT", "END", "Found", "Soaked", "pieces", "point", "whole"]

END, COUNT = 3600.0, 61
"""Length of the run [s], and its points [1]."""
TIMES, APART = tuple(linspace(0.0, END, COUNT)), 5
"""The points [s], and every how many of them a start is marched where much changes [1]."""
WIDE = 2 * APART
"""Every how many of them one is marched in any case [1]."""
EARLY, BEND = 20, 0.35
"""Up to which point one is marched within each wide span [1], and change of cranking time over
the span from which one is later on [s]."""
DRAWN = 1e-5
"""Error allowed a step of the hour, as a share of each state [1]: a hundredth of a kelvin."""
BOILS = 2e-6
"""Vapour made above which the bowl is said to boil [kg/s]; spreading alone makes less."""
FITTED = Vents(inside_bore=5e-3, outside_bore=8e-3, canister_bore=6e-3)
BED = Canister(capacity=60e-3)
"""What the bench fits where the card has no such opening and no canister (sizes invented)."""


class Soaked(NamedTuple):
    """A soak in time, a list of each with one value for every time."""

    kind: str  # of vents
    ways: Openings  # share of the vapour by each opening [1]
    times: list[float]  # s since the engine stopped
    bowl: list[float]  # K
    block: list[float]  # K
    left: list[float]  # kg of fuel in the bowl
    intake: list[float]  # kg in bore and manifold
    stored: list[float]  # kg in the canister
    full: list[float]  # share of what the canister can hold [1]
    gone: list[float]  # kg gone outside, by vents and through the canister
    vapour: list[float]  # kg/s made
    boils: list[bool]


class Found(NamedTuple):
    """A soak, and the start that would follow at each of its times."""

    soaked: Soaked
    cranking: list[float]  # s until a start at that time fires; on a line between those marched
    equivalence: list[float]  # fuel over the fuel that just burns, at its first turns [1]


def point(card: Rig, values: Mapping[str, Any]) -> Soaked:
    """Return the hour after the stop."""
    return _soaked(_asked(card, values))


def whole(card: Rig, values: Mapping[str, Any]) -> Found:
    """Return the hour after the stop, and starts marched at some of its times."""
    return finished(pieces(card, values))


def pieces(card: Rig, values: Mapping[str, Any]) -> March[Found]:
    """Work the same out, a start a piece."""
    asked, starts = _asked(card, values), dict[int, Cranked]()
    places = *range(0, COUNT, WIDE), *range(APART, COUNT, WIDE)
    for number, place in enumerate(places, 1):
        if place % WIDE == 0 or _bends(starts, place):
            starts[place] = _start(asked, place)
        yield number / len(places)
    return Found(
        soaked=_soaked(asked),
        cranking=_along({place: each.seconds for place, each in starts.items()}),
        equivalence=_along({place: each.equivalence for place, each in starts.items()}),
    )


def _bends(starts: Mapping[int, Cranked], place: int) -> bool:
    """Return whether the cranking time about a place changes so much that it may be bent there."""
    before, after = starts[place - APART], starts[place + APART]
    return place < EARLY or abs(after.seconds - before.seconds) > BEND


class _Asked(NamedTuple):
    """One soak that is asked for."""

    rig: Rig
    stop: float  # rad, where the card's idle has the throttle
    kind: str
    outside: float  # K
    reid: float  # Pa
    load: float  # share of what the canister can hold [1]


def _asked(card: Rig, values: Mapping[str, Any]) -> _Asked:
    """Return the soak at one setting."""
    rig, stop = _rig(card, values), card_state(card, "idle").throttle_angle
    kind, load = values["vents"], values["canister_load"]
    return _Asked(rig, stop, kind, values["outside"], values["reid"], load)


def _rig(card: Rig, values: Mapping[str, Any]) -> Rig:
    """Return the rig with the vents that have been fitted, and its insulation."""
    own, kind = card.vents, values["vents"]
    vents = replace(
        own,
        outside_bore=own.outside_bore or FITTED.outside_bore,
        outside_setting=values["outside_setting"] if kind == "outside" else 0.0,
        canister_bore=(own.canister_bore or FITTED.canister_bore) * (kind == "canister"),
        switched_share=float(kind == "canister"),
    )
    heat = card.hot_soak
    soak = replace(heat, block_to_bowl=heat.block_to_bowl * values["flange_heat"])
    bed = (card.canister or BED) if kind == "canister" else ABSENT
    return replace(card, vents=vents, hot_soak=soak, canister=bed)


@lru_cache(maxsize=256)
def _run(of: _Asked) -> SoakRun:
    """Return the soak."""
    car = _car(of)
    load = of.load * _capacity(of.rig)
    return soak_run(of.rig, car.weather, car.fuel, TIMES, load=load, relative=DRAWN)


def _car(of: _Asked) -> Car:
    """Return the car on its day and its fuel."""
    weather, fuel = Weather.at(temperature=of.outside), Fuel(reid_vapour_pressure=of.reid)
    return Car(of.rig, weather, fuel, of.stop)


def _capacity(rig: Rig) -> float:
    """Return what the canister can hold [kg]."""
    return (rig.canister or BED).capacity


def _soaked(of: _Asked) -> Soaked:
    """Return the soak that is asked for."""
    run = _run(of)
    return Soaked(
        kind=of.kind,
        ways=outlets(of.rig.vents),
        times=list(TIMES),
        bowl=run.bowl,
        block=run.block,
        left=run.fuel_left,
        intake=run.intake,
        stored=run.stored,
        full=[each / _capacity(of.rig) for each in run.stored],
        gone=[out + lost for out, lost in zip(run.outside, run.lost, strict=True)],
        vapour=run.vapour,
        boils=[each > BOILS for each in run.vapour],
    )


@lru_cache(maxsize=1024)
def _start(of: _Asked, place: int) -> Cranked:
    """Return the start that would follow at a place in the run."""
    begin = Start.after(of.rig, _run(of), place)
    before = place - (APART if place % WIDE else WIDE)
    near = _start(of, before).network if place else None
    return cranked(_car(of), begin._replace(near=near))


def _along(marched: Mapping[int, float]) -> list[float]:
    """Return values at every time, on straight lines between those at some places."""
    places = sorted(marched)
    moments, values = [TIMES[place] for place in places], [marched[place] for place in places]
    return [interpolate(now, moments, values) for now in TIMES]

"""What the hot-soak bench works out at one setting: the hour, with the start at each moment."""

from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache
from typing import Any, NamedTuple

from fuelcircuits.benches.carburettor.running import card_state
from fuelcircuits.physics.circuits.bowl_vents import Openings, Vents
from fuelcircuits.physics.circuits.canister import Canister
from fuelcircuits.physics.circuits.hot_soak import outlets
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.motion.moving import Car
from fuelcircuits.physics.motion.restart import cranked
from fuelcircuits.physics.motion.soak_run import SoakRun, soak_run
from fuelcircuits.physics.motion.start import Start
from fuelcircuits.physics.network.rig import ABSENT, Rig
from fuelcircuits.physics.numerics.interpolation import interpolate, linspace

__all__ = ["APART", "COUNT", "END", "Found", "Soaked", "point", "whole"]

END, COUNT = 3600.0, 61
"""Length of the run [s], and its points [1]."""
TIMES, APART = tuple(linspace(0.0, END, COUNT)), 5
"""The points [s], and every how many of them a start is marched [1]."""
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
    return _soaked(*_asked(card, values))


def whole(card: Rig, values: Mapping[str, Any]) -> Found:
    """Return the hour after the stop, and starts marched at some of its times."""
    asked = _asked(card, values)
    return Found(_soaked(*asked), *_starts(*asked))


class _Asked(NamedTuple):
    """One soak that is asked for."""

    rig: Rig
    kind: str
    outside: float  # K
    reid: float  # Pa
    load: float  # share of what the canister can hold [1]


def _asked(card: Rig, values: Mapping[str, Any]) -> _Asked:
    """Return the soak at one setting."""
    rig, kind = _rig(card, values), values["vents"]
    return _Asked(rig, kind, values["outside"], values["reid"], values["canister_load"])


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
def _run(rig: Rig, kind: str, outside: float, reid: float, load: float) -> SoakRun:
    """Return the soak of this rig on a day and a fuel; `load` is the canister's share."""
    weather, fuel = Weather.at(temperature=outside), Fuel(reid_vapour_pressure=reid)
    return soak_run(rig, weather, fuel, TIMES, load=load * _capacity(rig))


def _capacity(rig: Rig) -> float:
    """Return what the canister can hold [kg]."""
    return (rig.canister or BED).capacity


def _soaked(*asked: Any) -> Soaked:
    """Return the soak that is asked for."""
    of, run = _Asked(*asked), _run(*asked)
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


@lru_cache(maxsize=256)
def _starts(*asked: Any) -> tuple[list[float], list[float]]:
    """Return cranking and first mixture at every time."""
    of, run = _Asked(*asked), _run(*asked)
    weather, fuel = Weather.at(temperature=of.outside), Fuel(reid_vapour_pressure=of.reid)
    car = Car(of.rig, weather, fuel, card_state(of.rig, "idle").throttle_angle)
    places = range(0, COUNT, APART)
    starts = [cranked(car, Start.after(of.rig, run, place)) for place in places]
    moments = [TIMES[place] for place in places]
    seconds, rich = (list(each) for each in zip(*starts, strict=True))
    return _along(moments, seconds), _along(moments, rich)


def _along(moments: list[float], values: list[float]) -> list[float]:
    """Return values at every time, on straight lines between some moments."""
    return [interpolate(now, moments, values) for now in TIMES]

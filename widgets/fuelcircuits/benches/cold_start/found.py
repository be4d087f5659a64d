"""The first minute and a half after a cold start: timer, coolant switch and idle air, in time."""

from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache
from typing import Any, NamedTuple

from fuelcircuits.benches.carburettor.running import PETROL, card_state
from fuelcircuits.physics.circuits.cold_start import (
    ColdStart,
    egr_allowed,
    idle_air_open,
    switch_open,
    timer_on,
)
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.motion.coolant import coolant
from fuelcircuits.physics.motion.vapour_share import burnable_share
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.network.solving import solve
from fuelcircuits.physics.numerics.interpolation import interpolate, linspace

__all__ = ["END", "Found", "Parts", "parts_of", "whole"]

END, EVEN, EDGE = 90.0, 90, 0.05
"""Length of the run [s], its even points, and how closely the timer's end is caught [s]."""
SHUT = linspace(0.0, 1.0, 9)
"""How far the valve shuts the idle air, where the carburettor is solved [1]."""
ROUNDS = 3
"""Rounds in which valve and vacuum settle together."""
BACK = 0.95
"""Share of the idle air passage from which the idle counts as not enriched [1]."""
COLDEST_WARM = 293.15
"""Coolant temperature below which an engine wants its idle enriched [K] (common practice)."""
CONDITIONS: Mapping[str, dict[str, float]] = {
    "good": {},
    "dead": {"solenoid_pull": 0.0},
    "stuck": {"stuck_shut": 1.0},
}
"""What each condition of the valve changes on the card."""


class Parts(NamedTuple):
    """Timer, coolant switch and solenoid."""

    timer: float  # s
    switch_point: float  # K
    pull: float  # share of its travel that the solenoid makes [1]


class Found(NamedTuple):
    """One setting of the bench; every list runs over the times."""

    parts: Parts
    fault: str  # "rich", "lean", or empty if nothing is wrong
    back: float | None  # s, when the idle is as before, if it ever is
    times: list[float]  # s
    coolant: list[float]  # K
    switched: list[float]  # share of the vacuum that the coolant switch lets through
    timed: list[bool]  # whether the timer is on
    egr: list[bool]  # whether exhaust gas is let back
    vacuum: list[float]  # Pa, manifold
    open: list[float]  # share of the idle air passage
    mixture: list[float]  # lambda delivered
    burns: list[float]  # lambda of what burns in time
    bare: float  # lambda with the passage open
    fuel: list[float]  # kg/s


def parts_of(card: Rig) -> ColdStart:
    """Return timer, switch and valve of a card, or those that the bench fits where it has none."""
    return card.cold_start or ColdStart()


def whole(card: Rig, values: Mapping[str, Any]) -> Found:
    """Follow the engine from the moment at which it catches."""
    outside, hose = values["outside"], not values["hose"]
    parts, idles = _parts(card, values), _idles(card, outside)
    times = _times(parts.timer)
    hot = [coolant(card.hot_soak, now, outside) for now in times]
    settled = [
        _settled(parts, warm, now, idles, hose=hose) for warm, now in zip(hot, times, strict=True)
    ]
    opened = [share for share, _ in settled]
    mixture, manifold, fuel = (
        [interpolate(1 - share, SHUT, row) for share in opened]
        for row in (idles.mixture, idles.manifold, idles.fuel)
    )
    share = [
        burnable_share(
            card, PETROL, each * idles.stoichiometric, pressure, coolant=warm, outside=outside
        )
        for each, pressure, warm in zip(mixture, manifold, hot, strict=True)
    ]
    return Found(
        parts=Parts(parts.timer, parts.switch_point, parts.solenoid_pull),
        fault=_fault(opened, outside),
        back=next((now for now, share in zip(times, opened, strict=True) if share > BACK), None),
        times=times,
        coolant=hot,
        switched=[switch_open(parts, warm) for warm in hot],
        timed=[timer_on(parts, now) for now in times],
        egr=[egr_allowed(parts, now) for now in times],
        vacuum=[vacuum for _, vacuum in settled],
        open=opened,
        mixture=mixture,
        burns=[each / max(part, 0.01) for each, part in zip(mixture, share, strict=True)],
        bare=idles.mixture[0],
        fuel=fuel,
    )


def _parts(card: Rig, values: Mapping[str, Any]) -> ColdStart:
    """Return timer, switch and valve as they have been changed."""
    changed = {"timer": values["timer"], "switch_point": values["switch_point"]}
    return replace(parts_of(card), **changed | CONDITIONS[values["valve"]])


def _times(timer: float) -> list[float]:
    """Return even times, and two at which the timer's end is caught."""
    edges = (min(max(each, 0.0), END) for each in (timer - EDGE, timer))
    return sorted({*linspace(0.0, END, EVEN), *edges})


class _Idles(NamedTuple):
    """The curb idle, choke open, with the idle air shut as far as each of `SHUT`."""

    vacuum: list[float]  # Pa
    manifold: list[float]  # Pa
    mixture: list[float]  # lambda
    fuel: list[float]  # kg/s
    stoichiometric: float  # air-fuel ratio


@lru_cache(maxsize=64)
def _idles(card: Rig, outside: float) -> _Idles:
    air, states = Weather.at(temperature=outside), [card_state(card, "idle")]
    speed, stop = card.engine.idle_speed, states[0].throttle_angle
    for shut in SHUT:
        settings = Settings(idle_enrichment=shut, fuel_temperature=outside)
        near = states[-1]
        states.append(solve(card, air, PETROL, speed, stop, settings=settings, start=near))
    found = states[1:]
    return _Idles(
        [each.manifold_vacuum for each in found],
        [each.pressures.manifold for each in found],
        [each.mixture for each in found],
        [each.fuel_flow for each in found],
        found[0].stoichiometric,
    )


def _settled(
    parts: ColdStart, warm: float, now: float, idles: _Idles, *, hose: bool
) -> tuple[float, float]:
    """Return how far the idle air passage is open [1], and the vacuum that shuts it [Pa]."""
    opened, vacuum = 1.0, 0.0
    for _ in range(ROUNDS):
        vacuum = interpolate(1 - opened, SHUT, idles.vacuum)
        opened = idle_air_open(parts, warm, now, vacuum=vacuum if hose else 0.0)
    return opened, vacuum


def _fault(opened: list[float], outside: float) -> str:
    """Return what is wrong, or nothing."""
    if opened[-1] < 0.5:
        return "rich"
    return "lean" if outside < COLDEST_WARM - 5 and opened[0] > 0.5 else ""

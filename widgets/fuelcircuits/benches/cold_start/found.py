"""The first minute and a half after a cold start, the idle held: timer, switch and idle air."""

from collections.abc import Mapping
from dataclasses import replace
from itertools import accumulate, pairwise
from typing import Any, NamedTuple

from fuelcircuits.benches.carburettor.running import PETROL, card_state
from fuelcircuits.benches.frame.pieces import Pieces, finished
from fuelcircuits.physics.circuits.cold_start import ColdStart, egr_allowed, switch_open, timer_on
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.motion.coolant import coolant
from fuelcircuits.physics.motion.moving import Car, Controls, Motion
from fuelcircuits.physics.motion.start import Start, begun
from fuelcircuits.physics.motion.step import stepped
from fuelcircuits.physics.network.rig import ABSENT, Rig
from fuelcircuits.physics.numerics.interpolation import linspace

__all__ = ["CAUGHT", "END", "Found", "Parts", "Timing", "parts_of", "pieces", "point", "whole"]

CRANKED, TURNS = 1.0, 5
"""Time on the starter [s], and its steps [1]."""
CAUGHT, CATCHING, END = 2.0, 16, 90.0
"""First point after the engine has caught [s], the steps until then [1], and the last point [s]."""
SHORT = CAUGHT / CATCHING
"""Length of the step in which it catches [s]."""
EDGES = (1e-3, 0.05)
"""After the timer's end: when it is off, and when the flows have followed [s]."""
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


class Timing(NamedTuple):
    """What timer and coolant do, which is known before anything is marched."""

    parts: Parts
    times: list[float]  # s since the engine has caught
    coolant: list[float]  # K
    switched: list[float]  # share of the vacuum that the coolant switch lets through
    timed: list[bool]  # whether the timer is on
    egr: list[bool]  # whether exhaust gas may be let back


class Found(NamedTuple):
    """One setting of the bench; every list runs over the times."""

    timing: Timing
    fault: str  # "rich", "lean", or empty if nothing is wrong
    back: float | None  # s, when the idle is as before, if it ever is
    vacuum: list[float]  # Pa, manifold
    open: list[float]  # share of the idle air passage
    mixture: list[float]  # lambda delivered
    burns: list[float]  # lambda of what burns in time
    fires: list[float]  # share of the cycles that fire
    bare: float  # lambda delivered with the passage open, after long
    fuel: list[float]  # kg/s


def parts_of(card: Rig) -> ColdStart:
    """Return timer, switch and valve of a card, or those that the bench fits where it has none."""
    return card.cold_start or ColdStart()


def point(card: Rig, values: Mapping[str, Any]) -> Timing:
    """Return what timer and coolant do."""
    parts = _parts(card, values)
    times = list(accumulate(_spans(values["timer"]), initial=0.0))[CATCHING:]
    hot = [coolant(card.hot_soak, now + SHORT, values["outside"]) for now in times]
    return Timing(
        parts=Parts(parts.timer, parts.switch_point, parts.solenoid_pull),
        times=times,
        coolant=hot,
        switched=[switch_open(parts, warm) for warm in hot],
        timed=[timer_on(parts, now) for now in times],
        egr=[egr_allowed(parts, now) for now in times],
    )


def whole(card: Rig, values: Mapping[str, Any]) -> Found:
    """Follow the engine from the moment at which it catches."""
    return finished(pieces(card, values))


def pieces(card: Rig, values: Mapping[str, Any]) -> Pieces[Found]:
    """Work the same out, a step a piece."""
    timing, car = point(card, values), _car(card, values)
    run = yield from _run(car)
    opened = [1.0 - each.enrichment for each in run]
    ends = zip(timing.times, opened, strict=True)
    return Found(
        timing=timing,
        fault=_fault(opened, values["outside"]),
        back=next((now for now, share in ends if share > BACK), None),
        vacuum=[each.vacuum for each in run],
        open=opened,
        mixture=[each.delivered for each in run],
        burns=[each.burning.burnt for each in run],
        fires=[each.burning.fires for each in run],
        bare=_bare(car),
        fuel=[each.metered for each in run],
    )


def _parts(card: Rig, values: Mapping[str, Any]) -> ColdStart:
    """Return timer, switch and valve as they have been changed."""
    changed = {"timer": values["timer"], "switch_point": values["switch_point"]}
    return replace(parts_of(card), **changed | CONDITIONS[values["valve"]])


def _car(card: Rig, values: Mapping[str, Any]) -> Car:
    """Return the car on the stand: throttle on its stop, no choke, the hose on or off."""
    parts = _parts(card, values)
    if values["hose"]:
        parts = replace(parts, solenoid_pull=0.0)
    rig, stop = replace(card, choke=ABSENT, cold_start=parts), card_state(card, "idle")
    return Car(rig, Weather.at(temperature=values["outside"]), PETROL, stop.throttle_angle)


def _spans(timer: float) -> list[float]:
    """Return the length of every step once the engine has caught [s]."""
    even = linspace(CAUGHT, END, round(END - CAUGHT) + 1)
    edges = (timer + each for each in EDGES)
    times = sorted({*linspace(0.0, CAUGHT, CATCHING + 1), *even, *edges})
    return [after - before for before, after in pairwise(times)]


def _run(car: Car) -> Pieces[list[Motion]]:
    """Work out everything at each time, the crankshaft held at idle speed once it has caught."""
    now, key = begun(car, Start.cold(car.weather)), Controls(starter=True)
    for _ in range(TURNS):
        now = stepped(car, now, key, CRANKED / TURNS)
    held = Controls(speed=car.rig.engine.idle_speed)
    now = stepped(car, now, held, SHORT)
    run = [now]
    for span in _spans(car.rig.cold_start.timer):
        run.append(stepped(car, run[-1], held, span))
        yield
    return run[CATCHING:]


def _bare(car: Car) -> float:
    """Return lambda of the idle that has long been left alone, with nothing enriched [1]."""
    plain = car._replace(rig=replace(car.rig, cold_start=ABSENT))
    return begun(plain, Start.cold(car.weather)._replace(running=True)).delivered


def _fault(opened: list[float], outside: float) -> str:
    """Return what is wrong, or nothing."""
    if opened[-1] < 0.5:
        return "rich"
    return "lean" if outside < COLDEST_WARM - 5 and min(opened) > 0.5 else ""

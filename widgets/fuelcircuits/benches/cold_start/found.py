"""The first minute and a half after a cold start, the idle held: timer, switch and idle air."""

from collections.abc import Mapping
from dataclasses import replace
from itertools import accumulate, pairwise
from typing import Any, NamedTuple

from fuelcircuits.benches.carburettor.running import PETROL, card_state
from fuelcircuits.diagnosis.march import March, finished
from fuelcircuits.physics.circuits.cold_start import ColdStart, egr_allowed, switch_open, timer_on
from fuelcircuits.physics.circuits.hot_soak import HotSoak
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
CAUGHT, CATCHING, END = 2.0, 10, 90.0
"""First point after the engine has caught [s], the steps until then [1], and the last point [s]."""
GROWING = 1.5
"""Power with which the time to those steps grows [1]."""
BUSY, SPARSE = 10, 3
"""Seconds after the first point that have a point each, and every how many of the later ones have
one while the coolant switch rests [1]."""
SHORT = 0.125
"""Length of the step in which it catches [s]."""
EDGES = (-1e-3, 1e-3, 0.05)
"""About the timer's end: when it is on, when it is off, and when the flows have followed [s]."""
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
    soak, outside = card.hot_soak, values["outside"]
    times = list(accumulate(_spans(parts, soak, outside), initial=0.0))[CATCHING:]
    hot = [coolant(soak, now + SHORT, outside) for now in times]
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


def pieces(card: Rig, values: Mapping[str, Any]) -> March[Found]:
    """Work the same out, a step a piece."""
    timing, car = point(card, values), _car(card, values)
    run = yield from _run(card, car)
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
        bare=_bare(card, car),
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


def _spans(parts: ColdStart, soak: HotSoak, outside: float) -> list[float]:
    """Return the length of every step once the engine has caught [s]."""
    before = [CAUGHT * share**GROWING for share in linspace(0.0, 1.0, CATCHING + 1)]
    even = linspace(CAUGHT, END, round(END - CAUGHT) + 1)
    open_at = [switch_open(parts, coolant(soak, now, outside)) for now in even]
    after = [
        now
        for at, now in enumerate(even)
        if at < BUSY or at % SPARSE == 0 or now == END or _moves(open_at[at - 1 : at + 2])
    ]
    edges = [parts.timer + each for each in EDGES]
    apart = (now for now in after if not edges[0] <= now <= edges[-1])
    times = sorted({*before, *apart, *edges})
    return [after - before for before, after in pairwise(times)]


def _moves(shares: list[float]) -> bool:
    """Return whether the coolant switch moves from second to second."""
    return max(shares) > min(shares)


def _run(card: Rig, car: Car) -> March[list[Motion]]:
    """Work out everything at each time, the crankshaft held at idle speed once it has caught."""
    start, key = Start.cold(car.weather), Controls(starter=True)
    now = begun(car, start._replace(near=card_state(card, "idle")))
    for _ in range(TURNS):
        now = stepped(car, now, key, CRANKED / TURNS, drawn=True)
    held = Controls(speed=car.rig.engine.idle_speed)
    now = stepped(car, now, held, SHORT, drawn=True)
    run = [now]
    spans = _spans(car.rig.cold_start, car.rig.hot_soak, car.weather.temperature)
    for span in spans:
        run.append(stepped(car, run[-1], held, span, drawn=True))
        yield (len(run) - 1) / len(spans)
    return run[CATCHING:]


def _bare(card: Rig, car: Car) -> float:
    """Return lambda of the idle that has long been left alone, with nothing enriched [1]."""
    plain = car._replace(rig=replace(car.rig, cold_start=ABSENT))
    start = Start.cold(car.weather)._replace(running=True, near=card_state(card, "idle"))
    return begun(plain, start).delivered


def _fault(opened: list[float], outside: float) -> str:
    """Return what is wrong, or nothing."""
    if opened[-1] < 0.5:
        return "rich"
    return "lean" if outside < COLDEST_WARM - 5 and min(opened) > 0.5 else ""

"""The cold-start bench: idle enrichment with its timer and its coolant switch, in time."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any, ClassVar

import numpy as np

from fuelcircuits.benches.cold_start.cold_run import END, ColdRun, cold_run
from fuelcircuits.benches.frame.choice import Choice, Switch
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.gauge import Gauge
from fuelcircuits.benches.frame.measure import (
    FLOW,
    RATIO,
    SECONDS,
    SHARE,
    TEMPERATURE,
    VACUUM,
    Measure,
    System,
)
from fuelcircuits.benches.frame.state import Axis, Chart, Curve, Dot, Moment, Panel, Reading, State
from fuelcircuits.benches.frame.time_bench import TimeBench
from fuelcircuits.errors import CardError
from fuelcircuits.physics.circuits.cold_start import ColdStart
from fuelcircuits.physics.network.rig import Rig

__all__ = ["ColdStartBench"]

COLDEST_WARM = 293.15
"""Coolant temperature below which an engine wants its idle enriched [K] (common practice)."""
STATES: Mapping[str, dict[str, float]] = {
    "good": {},
    "dead": {"solenoid_pull": 0.0},
    "stuck": {"stuck_shut": 1.0},
}
"""What each state of the valve changes on the card."""


class ColdStartBench(TimeBench):
    """Cold-start enrichment of the idle in time; a rig without one gets one fitted."""

    title = "Cold-start enrichment of the idle"
    picture = "cold_start.svg"
    pace = 5.0
    clock: ClassVar[Measure] = SECONDS
    page_grid: ClassVar[Mapping[str, int]] = {"outside": 5, "valve": 2}
    needs: ClassVar[Mapping[str, Mapping[str, Any]]] = {
        "timer": {"timer": 60.0},
        "switch_point": {"timer": 60.0},
        "valve": {"timer": 60.0},
        "hose": {"timer": 60.0},
    }

    outside = Control(
        "Coolant at the start", TEMPERATURE, 263.15, 313.15, steps=(1, 2), start=280.15
    )
    timer = Control("Timer", SECONDS, 10, 60, steps=(1, 1), start=35)
    switch_point = Control(
        "Coolant switch shuts at", TEMPERATURE, 278.15, 308.15, steps=(1, 2), start=293.15
    )
    valve = Choice(
        "Idle air valve",
        {"good": "in order", "dead": "solenoid dead", "stuck": "stuck shut"},
        "good",
    )
    hose = Switch("Vacuum hose off", start=False)

    def __init__(self, rig: Rig) -> None:
        for name in ("low_speed", "hot_soak"):
            if getattr(rig, name) is None:
                raise CardError(f"{rig.name}: {name} must be given for this bench, got nothing")
        self.rig, self.card = rig, rig.cold_start or ColdStart()
        super().__init__(timer=self.card.timer, switch_point=self.card.switch_point)

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        """Return the first minute and a half after the engine has caught."""
        parts = replace(
            self.card,
            timer=values["timer"],
            switch_point=values["switch_point"],
            **STATES[values["valve"]],
        )
        run = cold_run(self.rig, parts, values["outside"], hose=not values["hose"])
        fault = _fault(run, values["outside"])
        return State(
            readings=_readings(run),
            numbers=_place(run, parts),
            chart=_chart(run),
            verdict=_verdict(run, fault, system),
            drawn=_drawn(run, parts, system),
            plotted=_plotted(run, parts, system),
            alarm=bool(fault),
            times=run.times,
            moments=_moments(run),
            gauges=(Gauge("Manifold vacuum", run.vacuum, VACUUM, 0, 100e3),),
        )


def _fault(run: ColdRun, outside: float) -> str:
    """Return what is wrong, or nothing."""
    if run.open[-1] < 0.5:
        return "the idle air stays shut after the timer has run out, and the idle stays rich"
    if outside < COLDEST_WARM - 5 and run.open[0] > 0.5:
        return "the idle air stays open in the cold, and the engine stalls for want of fuel"
    return ""


def _readings(run: ColdRun) -> tuple[Reading, ...]:
    return (
        Reading("Lambda delivered", run.mixture, RATIO),
        Reading("Lambda that can burn", run.mixture / np.maximum(run.vapour, 0.01), RATIO),
        Reading("Idle air passage open", run.open, SHARE),
        Reading("Coolant", run.coolant, TEMPERATURE),
        Reading("Timer energised", run.timed.astype(float), SHARE),
        Reading("Exhaust gas let back", run.egr.astype(float), SHARE),
        Reading("Idle fuel, all barrels", run.fuel, FLOW),
    )


def _place(run: ColdRun, parts: ColdStart) -> Mapping[str, Any]:
    """Return the numbers that place every part of the drawing."""
    cold = np.clip(0.5 - (run.coolant - parts.switch_point) / parts.switch_width, 0, 1)
    live, shut = run.timed * parts.solenoid_pull, -26.0 * (1 - run.open)
    spring = {f"coil_{i}": 291 + (43 + shut) * i / 6 for i in range(7)}
    return spring | {
        "shut": shut,
        "disc": 337 + shut,
        "solenoid": 90 * (1 - live),
        "switch": 90 * (1 - cold),
        "hand": 360 * np.minimum(run.times / parts.timer, 1.0),
        "mercury": 262 - np.clip(run.coolant - 258.15, 2, 56),
        "mark": 262 - float(np.clip(parts.switch_point - 258.15, 2, 56)),
        "air": 40.0 + 0 * run.open,
        "extra": 50.0 * run.open,
        "fuel": 80_000.0 * run.fuel,
        "egr": 40.0 * run.egr,
        "held_back": (~run.egr).astype(float),
        "timed": run.timed.astype(float),
    }


def _chart(run: ColdRun) -> Chart:
    """Return mixture and idle air passage against time."""
    burns = np.minimum(run.mixture / np.maximum(run.vapour, 0.01), 1.4)
    mixture = Panel(
        y=Axis("Lambda", RATIO, 0.6, 1.4),
        curves=(
            Curve("lead", run.times, run.mixture, "delivered"),
            Curve("mark", run.times, np.full(run.times.shape, run.bare), "not enriched"),
            Curve("other", run.times, burns, "can burn"),
        ),
        dot=Dot(run.times, run.mixture),
        share=1.5,
    )
    passage = Panel(
        y=Axis("Idle air open", SHARE, 0, 1.05),
        curves=(Curve("lead", run.times, run.open),),
        dot=Dot(run.times, run.open),
    )
    return Chart(Axis("Time", SECONDS, 0, END), (mixture, passage))


def _verdict(run: ColdRun, fault: str, system: System) -> str:
    """Return in one sentence what the enrichment does."""
    ends = [RATIO.text(float(run.mixture[place]), system) for place in (0, -1)]
    if fault:
        return f"Fault: {fault}; lambda is {ends[0]} at the start and {ends[1]} at the end."
    if run.open[0] > 0.95:
        return f"The engine is warm enough: no enrichment, lambda {ends[0]} throughout."
    back = SECONDS.text(float(run.times[np.argmax(run.open > 0.95)]), system)
    return f"The idle is enriched to lambda {ends[0]}; after {back} it is back at {ends[1]}."


def _moments(run: ColdRun) -> tuple[Moment, ...]:
    """Return what happens when."""
    start = "The engine catches; the timer starts."
    off = float(run.times[np.argmax(~run.timed)])
    return Moment(0.0, start), Moment(off, "The timer is off; exhaust gas may be let back.")


def _drawn(run: ColdRun, parts: ColdStart, system: System) -> str:
    """Return the drawing in words."""
    return (
        "Section through the idle channel. Fuel from the low-speed jet meets air from the fixed "
        "idle air bleed and from a second air passage. A diaphragm valve shuts that passage when "
        "manifold vacuum reaches it, and vacuum has to pass two gates: the coolant switch, shut "
        f"above {TEMPERATURE.text(parts.switch_point, system)}, and a solenoid that the timer "
        f"keeps open for {SECONDS.text(parts.timer, system)}. At the start the passage is "
        f"{SHARE.text(float(run.open[0]), system)} open, at the end "
        f"{SHARE.text(float(run.open[-1]), system)}. While the timer runs no exhaust gas is let "
        "back."
    )


def _plotted(run: ColdRun, parts: ColdStart, system: System) -> str:
    """Return the plot in words."""
    ends = [RATIO.text(float(run.mixture[place]), system) for place in (0, -1)]
    hot = [TEMPERATURE.text(float(run.coolant[place]), system) for place in (0, -1)]
    return (
        f"Two plots against time, {END:g} s long. Above, lambda: delivered it starts at {ends[0]} "
        f"and ends at {ends[1]}; a dashed line marks the idle without enrichment, "
        f"{RATIO.text(run.bare, system)}, and a third line the mixture that can burn. Below, the "
        f"open share of the idle air passage; the timer ends at "
        f"{SECONDS.text(parts.timer, system)}, while the coolant warms from {hot[0]} to {hot[1]}."
    )

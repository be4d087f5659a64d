"""The cold-start bench: idle enrichment with its timer and its coolant switch, in time."""

from collections.abc import Mapping
from math import nan
from typing import Any, ClassVar

from fuelcircuits.benches.cold_start.drawing import place
from fuelcircuits.benches.cold_start.found import END, Found, Timing, parts_of, point, whole
from fuelcircuits.benches.cold_start.words import (
    drawn,
    gauges,
    moments,
    plotted,
    readings,
    verdict,
)
from fuelcircuits.benches.frame.choice import Choice, Switch
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.measure import RATIO, SECONDS, SHARE, TEMPERATURE, Measure, System
from fuelcircuits.benches.frame.state import AWAITED, Axis, Chart, Curve, Dot, Panel, State
from fuelcircuits.benches.frame.time_bench import TimeBench
from fuelcircuits.errors import CardError
from fuelcircuits.physics.network.rig import Rig

__all__ = ["ColdStartBench"]

LEANEST = 1.4
"""Lambda at the end of the plot [1]."""


class ColdStartBench(TimeBench):
    """Cold-start enrichment of the idle in time; a rig without one gets one fitted."""

    title = "Cold-start enrichment of the idle"
    picture = "cold_start.svg"
    pace = 5.0
    clock: ClassVar[Measure] = SECONDS
    page_grid: ClassVar[Mapping[str, int]] = {"outside": 5, "valve": 2}
    needs: ClassVar[Mapping[str, Mapping[str, Any]]] = {
        "timer": {"timer": 60.0},
        **{name: {"timer": 60.0, "outside": 268.15} for name in ("switch_point", "valve", "hose")},
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
        for name in ("low_speed", "hot_soak", "pump", "wall_film"):
            if getattr(rig, name) is None:
                raise CardError(f"{rig.name}: {name} must be given for this bench, got nothing")
        self.card, parts = rig, parts_of(rig)
        super().__init__(timer=parts.timer, switch_point=parts.switch_point)

    def point(self, values: Mapping[str, Any], system: System) -> State:
        """Return what timer and coolant do; what comes of it is marched after."""
        timing = point(self.card, values)
        return State(
            readings=readings(timing),
            numbers=place(timing),
            chart=_chart(timing),
            verdict=AWAITED,
            drawn=drawn(timing, None, system),
            plotted=AWAITED,
            times=timing.times,
            moments=moments(timing),
        )

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        """Return the first minute and a half after the engine has caught."""
        found = whole(self.card, values)
        timing = found.timing
        return State(
            readings=readings(timing, found),
            numbers=place(timing, found),
            chart=_chart(timing, found),
            verdict=verdict(found, system),
            drawn=drawn(timing, found, system),
            plotted=plotted(found, system),
            alarm=bool(found.fault),
            times=timing.times,
            moments=moments(timing),
            gauges=gauges(found),
        )


def _chart(timing: Timing, found: Found | None = None) -> Chart:
    """Return mixture and idle air passage against time; before the run is marched, no curve."""
    times, none = timing.times, [nan] * len(timing.times)
    mixture = Panel(
        y=Axis("Lambda", RATIO, 0.6, LEANEST),
        curves=(
            _curve("lead", timing, found and found.mixture, "delivered"),
            _curve("mark", timing, found and [found.bare for _ in times], "not enriched"),
            _curve("other", timing, found and _shown(found.burns), "can burn"),
        ),
        dot=Dot(times, found.mixture if found else none),
        share=1.5,
    )
    passage = Panel(
        y=Axis("Idle air open", SHARE, 0, 1.05),
        curves=(_curve("lead", timing, found and found.open),),
        dot=Dot(times, found.open if found else none),
    )
    return Chart(Axis("Time", SECONDS, 0, END), (mixture, passage))


def _curve(role: str, timing: Timing, values: list[float] | None, label: str = "") -> Curve:
    """Return a curve over the run, without points before it is marched."""
    return Curve(role, None if values is None else timing.times, values, label)


def _shown(burns: list[float]) -> list[float]:
    """Return the mixture that burns, no leaner than the plot reaches."""
    return [min(each, LEANEST) for each in burns]

"""The cold-start bench: idle enrichment with its timer and its coolant switch, in time."""

from collections.abc import Mapping
from typing import Any, ClassVar

from fuelcircuits.benches.cold_start.drawing import place
from fuelcircuits.benches.cold_start.found import END, Found, parts_of, whole
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
from fuelcircuits.benches.frame.state import Axis, Chart, Curve, Dot, Panel, State
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
        for name in ("low_speed", "hot_soak"):
            if getattr(rig, name) is None:
                raise CardError(f"{rig.name}: {name} must be given for this bench, got nothing")
        self.card, parts = rig, parts_of(rig)
        super().__init__(timer=parts.timer, switch_point=parts.switch_point)

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        """Return the first minute and a half after the engine has caught."""
        found = whole(self.card, values)
        return State(
            readings=readings(found),
            numbers=place(found),
            chart=_chart(found),
            verdict=verdict(found, system),
            drawn=drawn(found, system),
            plotted=plotted(found, system),
            alarm=bool(found.fault),
            times=found.times,
            moments=moments(found),
            gauges=gauges(found),
        )


def _chart(found: Found) -> Chart:
    """Return mixture and idle air passage against time."""
    times = found.times
    mixture = Panel(
        y=Axis("Lambda", RATIO, 0.6, LEANEST),
        curves=(
            Curve("lead", times, found.mixture, "delivered"),
            Curve("mark", times, [found.bare for _ in times], "not enriched"),
            Curve("other", times, [min(each, LEANEST) for each in found.burns], "can burn"),
        ),
        dot=Dot(times, found.mixture),
        share=1.5,
    )
    passage = Panel(
        y=Axis("Idle air open", SHARE, 0, 1.05),
        curves=(Curve("lead", times, found.open),),
        dot=Dot(times, found.open),
    )
    return Chart(Axis("Time", SECONDS, 0, END), (mixture, passage))

"""The cold-start bench: idle enrichment with its timer and its coolant switch, in time."""

from collections.abc import Mapping
from math import nan
from typing import Any, ClassVar

from fuelcircuits.benches.cold_start import words
from fuelcircuits.benches.cold_start.drawing import place
from fuelcircuits.benches.cold_start.found import END, Found, Timing, parts_of, pieces, point
from fuelcircuits.benches.frame.choice import Choice, Switch
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.measure import RATIO, SECONDS, SHARE, TEMPERATURE, Measure, System
from fuelcircuits.benches.frame.pieces import Pieces, finished
from fuelcircuits.benches.frame.sections import with_sections
from fuelcircuits.benches.frame.shown import Run, along
from fuelcircuits.benches.frame.state import Axis, Chart, Dot, Panel, State
from fuelcircuits.benches.frame.time_bench import TimeBench
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
        self.card = with_sections(rig, "low_speed", "hot_soak", "pump", "wall_film")
        parts = parts_of(rig)
        super().__init__(timer=parts.timer, switch_point=parts.switch_point)

    def point(self, values: Mapping[str, Any], system: System) -> State:
        """Return what timer and coolant do; what comes of it is marched after."""
        return SHOWN.state(point(self.card, values), None, system)

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        """Return the first minute and a half after the engine has caught."""
        return finished(self.pieces(values, system))

    def pieces(self, values: Mapping[str, Any], system: System) -> Pieces[State]:
        """Work the same out piece by piece."""
        found = yield from pieces(self.card, values)
        return SHOWN.state(found.timing, found, system)


def _chart(timing: Timing, found: Found | None) -> Chart:
    """Return mixture and idle air passage against time; before the run is marched, no curve."""
    times, none = timing.times, [nan] * len(timing.times)
    mixture = Panel(
        y=Axis("Lambda", RATIO, 0.6, LEANEST),
        curves=(
            along("lead", timing.times, found and found.mixture, "delivered"),
            along("mark", timing.times, found and [found.bare for _ in times], "not enriched"),
            along("other", timing.times, found and _shown(found.burns), "can burn"),
        ),
        dot=Dot(times, found.mixture if found else none),
        share=1.5,
    )
    passage = Panel(
        y=Axis("Idle air open", SHARE, 0, 1.05),
        curves=(along("lead", timing.times, found and found.open),),
        dot=Dot(times, found.open if found else none),
    )
    return Chart(Axis("Time", SECONDS, 0, END), (mixture, passage))


def _shown(burns: list[float]) -> list[float]:
    """Return the mixture that burns, no leaner than the plot reaches."""
    return [min(each, LEANEST) for each in burns]


SHOWN = Run(words, place, _chart)

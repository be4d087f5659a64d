"""The pump bench: a tip-in with and without the pump's shot, in time."""

from collections.abc import Mapping
from math import nan
from typing import Any, ClassVar

from fuelcircuits.benches.frame.choice import Choice
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.measure import (
    ANGLE,
    FLOW,
    RATIO,
    SECONDS,
    SHARE,
    SMALL_LENGTH,
    SPEED,
    TEMPERATURE,
    Measure,
    System,
    measure,
)
from fuelcircuits.benches.frame.pieces import Pieces, finished
from fuelcircuits.benches.frame.sections import with_sections
from fuelcircuits.benches.frame.shown import Run, along
from fuelcircuits.benches.frame.state import Axis, Band, Chart, Dot, Panel, State
from fuelcircuits.benches.frame.time_bench import TimeBench
from fuelcircuits.benches.pump import words
from fuelcircuits.benches.pump.drawing import place
from fuelcircuits.benches.pump.found import END, HOT, Found, Move, pieces, point
from fuelcircuits.benches.pump.words import STUMBLES
from fuelcircuits.physics.network.rig import Rig

__all__ = ["PumpBench"]

RATE = measure("N/m", ("N/m", 0), ("lbf/inch", 2))


class PumpBench(TimeBench):
    """A tip-in in time, for the accelerator pump of a rig."""

    title = "Tip-in with and without the pump shot"
    picture = "pump.svg"
    pace = 0.5
    clock: ClassVar[Measure] = SECONDS
    page_grid: ClassVar[Mapping[str, int]] = {"pump": 3, "coolant": 3}

    opened_from = Control("Throttle before", SHARE, 0, 0.45, steps=(1, 1), start=0.02)
    opened = Control("Throttle opened to", SHARE, 0.2, 1, steps=(5, 5), start=0.5)
    duration = Control("Time to open it", SECONDS, 0.1, 2, steps=(0.1, 0.1), start=0.3)
    pump = Choice(
        "Pump",
        {
            "good": "in order",
            "cup": "cup or diaphragm worn",
            "check": "inlet check leaks",
            "none": "disconnected",
        },
        "good",
    )
    jet = Control("Pump jet", SMALL_LENGTH, 0.3e-3, 0.8e-3, steps=(0.02, 0.001), start=0.5e-3)
    spring = Control("Duration spring", RATE, 100, 1500, steps=(20, 0.1), start=300)
    lost = Control("Rod starts at", ANGLE, 0.16, 0.6, steps=(1, 1), start=0.227)
    speed = Control("Engine speed", SPEED, 70, 320, steps=(50, 50), start=104.72)
    coolant = Control("Coolant", TEMPERATURE, 253.15, HOT, steps=(5, 10), start=HOT)

    def __init__(self, rig: Rig) -> None:
        self.card = with_sections(rig, "pump", "wall_film", "float_bowl", "hot_soak")
        pump = rig.pump
        super().__init__(jet=pump.jet_bore, spring=pump.spring_rate, lost=pump.linkage_start)

    def point(self, values: Mapping[str, Any], system: System) -> State:
        """Return what pedal and rod do; what comes of it is marched after."""
        return SHOWN.state(point(self.card, values), None, system)

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        """Return the run from light throttle through the tip-in to its end."""
        return finished(self.pieces(values, system))

    def pieces(self, values: Mapping[str, Any], system: System) -> Pieces[State]:
        """Work the same out piece by piece."""
        found = yield from pieces(self.card, values)
        return SHOWN.state(found.move, found, system)


def _chart(move: Move, found: Found | None) -> Chart:
    """Return mixture and fuel flows against time; before the run is marched, without any curve."""
    times, none = move.times, [nan] * len(move.times)
    most, mixed, shot = (
        (found.most, found.helped.mixture, found.shot) if found else (nan, none, none)
    )
    mixture = Panel(
        y=Axis("Lambda", RATIO, 0.5, 1.5),
        curves=(
            along("lead", move.times, found and found.helped.mixture, "with the shot"),
            along("mark", move.times, found and found.bare.mixture, "without it"),
        ),
        dot=Dot(times, mixed),
        band=Band(STUMBLES, "stumbles"),
        share=1.4,
    )
    fuel = Panel(
        y=Axis("Fuel", FLOW, 0, most),
        curves=(
            along("other", move.times, found and found.circuits, "by the circuits"),
            along("third", move.times, found and found.shot, "by the pump"),
            along("fourth", move.times, found and found.helped.fuel, "at cylinders"),
        ),
        dot=Dot(times, shot),
    )
    return Chart(Axis("Time", SECONDS, 0, END), (mixture, fuel))


SHOWN = Run(words, place, _chart)

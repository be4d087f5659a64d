"""The choke bench: a warm-up with coil, plate, pull-off and fast-idle cam, in time."""

from collections.abc import Mapping
from math import nan, radians
from typing import Any, ClassVar

from fuelcircuits.benches.choke import words
from fuelcircuits.benches.choke.drawing import place
from fuelcircuits.benches.choke.found import END, Found, Warming, pieces, point
from fuelcircuits.benches.frame.choice import Choice
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.measure import (
    ANGLE,
    LENGTH,
    MINUTES,
    RATIO,
    SPEED,
    TEMPERATURE,
    Measure,
    System,
)
from fuelcircuits.benches.frame.pieces import Pieces, finished
from fuelcircuits.benches.frame.sections import with_sections
from fuelcircuits.benches.frame.shown import Run, along
from fuelcircuits.benches.frame.state import Axis, Chart, Curve, Dot, Panel, State
from fuelcircuits.benches.frame.time_bench import TimeBench
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.openings.plate import OPEN

__all__ = ["ChokeBench"]

LEANEST = 1.6
"""Lambda at the end of the plot [1]."""


class ChokeBench(TimeBench):
    """A warm-up in time, for the choke of a rig."""

    title = "Choke and fast idle in the warm-up"
    picture = "choke.svg"
    pace = 20.0
    clock: ClassVar[Measure] = MINUTES
    page_grid: ClassVar[Mapping[str, int]] = {"outside": 3, "pull_off": 2, "heat": 2}
    needs: ClassVar[Mapping[str, Mapping[str, Any]]] = {
        "offset": {"pedal": "left"},
        "pull_off": {"heat": "off"},
        "speed": {"pedal": "left"},
    }

    outside = Control(
        "Outside temperature", TEMPERATURE, 248.15, 298.15, steps=(5, 10), start=268.15
    )
    turned = Control("Housing turned", ANGLE, -0.35, 0.35, steps=(2, 2), start=0)
    offset = Control("Offset of the shaft", LENGTH, 0, 6e-3, steps=(0.5, 0.02), start=3e-3)
    heat = Choice("Heat of the coil", {"on": "in order", "off": "missing"}, "on")
    pull_off = Choice("Pull-off diaphragm", {"good": "in order", "torn": "torn"}, "good")
    pedal = Choice("Pedal", {"tapped": "tapped now and then", "left": "left alone"}, "tapped")
    speed = Control("Engine speed held", SPEED, 73, 320, steps=(50, 50), start=104.72)

    def __init__(self, rig: Rig) -> None:
        self.card = with_sections(rig, "choke", "hot_soak", "pump", "wall_film")
        super().__init__(offset=rig.choke.plate_offset)

    def point(self, values: Mapping[str, Any], system: System) -> State:
        """Return how coil and coolant warm; what comes of it is marched after."""
        return SHOWN.state(point(self.card, values), None, system)

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        """Return eight minutes of warm-up."""
        return finished(self.pieces(values, system))

    def pieces(self, values: Mapping[str, Any], system: System) -> Pieces[State]:
        """Work the same out piece by piece."""
        found = yield from pieces(self.card, values)
        return SHOWN.state(found.warming, found, system)


def _chart(warming: Warming, found: Found | None) -> Chart:
    """Return plate angle and mixture against time; before the run is marched, the coil alone."""
    times, none = warming.times, [nan] * len(warming.times)
    alone = [min(max(angle, 0.0), OPEN) for angle in warming.rest]
    burns = found and [min(each, LEANEST) for each in found.burns]
    plate = Panel(
        y=Axis("Plate angle", ANGLE, 0, radians(95)),
        curves=(
            along("lead", warming.times, found and found.plate, "choke plate"),
            Curve("mark", times, alone, "coil alone"),
        ),
        dot=Dot(times, found.plate if found else none),
    )
    mixture = Panel(
        y=Axis("Lambda", RATIO, 0, LEANEST),
        curves=(
            along("other", warming.times, found and found.mixture, "delivered"),
            along("third", warming.times, burns, "can burn"),
        ),
        dot=Dot(times, found.mixture if found else none),
    )
    return Chart(Axis("Time", MINUTES, 0, END), (plate, mixture))


SHOWN = Run(words, place, _chart)

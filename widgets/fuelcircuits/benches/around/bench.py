"""The bench around the carburettor: what imitates its faults, and what each gauge makes of it."""

from collections.abc import Mapping
from math import radians
from typing import Any, ClassVar

from fuelcircuits.benches.around import words
from fuelcircuits.benches.around.drawing import place
from fuelcircuits.benches.around.found import LASTS, Found, whole
from fuelcircuits.benches.carburettor.measures import TURNS
from fuelcircuits.benches.frame.bench import Bench
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.measure import (
    ANGLE,
    AREA,
    PRESSURE,
    SECONDS,
    SHARE,
    VACUUM,
    System,
)
from fuelcircuits.benches.frame.sections import with_sections
from fuelcircuits.benches.frame.shown import Shown
from fuelcircuits.benches.frame.state import Axis, Chart, Curve, Dot, Panel, State
from fuelcircuits.physics.network.rig import Rig

__all__ = ["AroundBench"]

SECTIONS = ("engine", "air_path", "float_bowl", "vents", "low_speed", "high_speed")


class AroundBench(Bench):
    """Spark, cylinder, hose, recirculation, exhaust and screws of one engine on its gauges."""

    title = "Is it the carburettor at all?"
    picture = "around.svg"
    page_grid: ClassVar[Mapping[str, int]] = {"spark_late": 13, "weak": 9}
    keeps: ClassVar[Mapping[str, tuple[str, ...]]] = {"exhaust": ("plot",)}

    spark_late = Control("Spark late", ANGLE, radians(-12), radians(12), steps=(1, 1), start=0)
    weak = Control("Work one cylinder has lost", SHARE, 0, 1, steps=(5, 5), start=0)
    hose = Control("Hose open", AREA, 0, 16e-6, steps=(0.5, 0.001), start=0)
    recirculation = Control("Recirculation open", AREA, 0, 6e-6, steps=(0.5, 0.001), start=0)
    exhaust = Control("Exhaust pinched", PRESSURE, 0, 40e3, steps=(2, 0.25), start=0)
    screw_turns = Control("Mixture screws open", TURNS, 0.5, 5, steps=(0.125, 0.125), start=2.5)

    def __init__(self, rig: Rig) -> None:
        self.card = with_sections(rig, *SECTIONS)
        super().__init__(screw_turns=rig.low_speed.screw_turns)

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        """Return what every gauge shows, with the needle's way at idle."""
        return SHOWN.state(whole(self.card, values), system)


def _chart(found: Found) -> Chart:
    """Return the vacuum at idle over the time."""
    along = found.needle
    panel = Panel(
        y=Axis("Vacuum at idle", VACUUM, 0, 85e3),
        curves=(
            Curve("lead", along.time, along.vacuum, "this engine"),
            Curve("other", along.time, along.healthy, "healthy"),
        ),
        dot=Dot(along.time[0], along.vacuum[0]),
    )
    return Chart(Axis("Time", SECONDS, 0, LASTS), (panel,))


SHOWN = Shown(words, place, _chart)

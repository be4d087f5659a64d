"""A made-up law for the tests of tables: a cube, a kink, and a change of kind."""

from collections.abc import Mapping
from typing import Any, ClassVar

from fuelcircuits.benches.frame.bench import Bench
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.measure import LENGTH, SHARE, System
from fuelcircuits.benches.frame.state import Axis, Chart, Curve, Panel, Reading, State

__all__ = ["LawBench"]

CHART = Chart(
    Axis("x", LENGTH, 0, 1), (Panel(Axis("y", LENGTH, 0, 1), (Curve("lead", [0, 1], [0, 1]),)),)
)


class LawBench(Bench):
    """A cube that runs over at 0.83, with a kink at 0.31."""

    title, needs_rig = "Tank", False
    page_grid: ClassVar[Mapping[str, int]] = {"filled": 21}
    filled = Control("Filled", SHARE, 0, 1, steps=(1, 1), start=0.5)

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        part = values["filled"]
        level = part**3 if part > 0.31 else 0.31**3 + 3 * (0.31 - part)
        return State(
            readings=(Reading("Level", level, LENGTH),),
            numbers={"level": part},
            chart=CHART,
            verdict="It runs over." if part > 0.83 else f"It is at {LENGTH.text(level, system)}.",
            drawn="A tank.",
            plotted="A line.",
        )

"""A made-up bench for the tests of the frame: a tank, drawn at once, whose curve takes long."""

from collections.abc import Mapping
from typing import Any

from fuelcircuits.benches.frame.bench import Bench
from fuelcircuits.benches.frame.choice import Choice, Switch
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.gauge import Gauge
from fuelcircuits.benches.frame.measure import LENGTH, PRESSURE, SHARE, System
from fuelcircuits.benches.frame.state import Axis, Chart, Curve, Dot, Panel, Reading, State
from fuelcircuits.errors import RangeError

__all__ = ["TankBench"]


class TankBench(Bench):
    """A tank that is filled by a part, and that nobody may press on when it is full."""

    title, needs_rig = "A tank", False

    filled = Control("Filled", SHARE, 0, 1, steps=(1, 1), start=0.5)
    pressure = Control("Fuel pressure", PRESSURE, 2e3, 60e3, steps=(0.5, 0.1), start=30e3)
    shape = Choice("Shape", {"round": "a round one", "square": "a square one"}, "round")
    leak = Switch("Leaking")

    def __init__(self, **start: Any) -> None:
        self.asked: list[tuple[str, float]] = []
        super().__init__(**start)

    @classmethod
    def drawing(cls) -> str:
        """Return a drawing of a few parts."""
        return (
            '<svg xmlns="http://www.w3.org/2000/svg" class="fc-svg" viewBox="0 0 90 60">'
            '<rect width="20" height="9" data-set="y = [level]"/><path data-march="leak"/></svg>'
        )

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        """Return the state with the curve."""
        self.asked.append(("whole", values["filled"]))
        return _state(values, system, [0.0, 1.0])

    def point(self, values: Mapping[str, Any], system: System) -> State:
        """Return the state without it."""
        self.asked.append(("point", values["filled"]))
        return _state(values, system, None)


def _state(values: Mapping[str, Any], system: System, along: list[float] | None) -> State:
    part = values["filled"]
    if part == 1 and values["pressure"] > 50e3:
        raise RangeError(f"pressure of a full tank must be below 50000, got {values['pressure']}")
    panel = Panel(
        y=Axis("Level", LENGTH, 0, 1),
        curves=(Curve("mark", [0, 1], [1, 1], "brim"), Curve("lead", along, along, "level")),
        dot=Dot(part, part),
    )
    return State(
        readings=(Reading("Level", part, LENGTH),),
        numbers={"level": 50 - 40 * part, "leak": 9.0 * values["leak"]},
        chart=Chart(Axis("Filled", SHARE, 0, 1), (panel,)),
        verdict=f"It stands at {LENGTH.text(part, system)} in {values['shape']}.",
        drawn=f"A tank with {LENGTH.text(part, system)}.",
        plotted=f"A line with a dot at {LENGTH.text(part, system)}.",
        gauges=(Gauge("Pressure", values["pressure"], PRESSURE, 0, 60e3, 1e3, 200),),
    )

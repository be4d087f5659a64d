"""A bench in which something runs: Python computes the whole run at once, the browser plays it."""

from typing import Any, ClassVar

from fuelcircuits.benches.bench import Bench
from fuelcircuits.benches.measure import SECONDS, Measure

__all__ = ["TimeBench"]


class TimeBench(Bench):
    """The base of every bench whose state is a run through time.

    `compute` returns a state with `times`; numbers, readings, gauges and dots may then be arrays
    with one value for each time, the chart's x axis is time, and `moments` tell what happens
    when. The browser plays, pauses, steps and marks the time in the plot.

    A class sets `pace`, seconds of the run in a second of watching at ordinary speed, and
    `clock`, how its times are shown.
    """

    pace: ClassVar[float] = 1.0
    clock: ClassVar[Measure] = SECONDS

    def _facts(self) -> dict[str, Any]:
        return {"pace": self.pace, "clock": self.clock.wire()}

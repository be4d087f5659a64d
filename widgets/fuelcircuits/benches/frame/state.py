"""What a bench computes at one setting of its controls: everything the browser then shows.

A time bench gives `times`; then numbers, readings, gauges and dots may hold a list with one
value for each time, and `State.at` takes one moment out of the run.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from fuelcircuits.benches.frame.gauge import Gauge
from fuelcircuits.benches.frame.measure import Measure, System, Value
from fuelcircuits.physics.numerics.interpolation import interpolate

__all__ = [
    "AWAITED",
    "Axis",
    "Band",
    "Chart",
    "Curve",
    "Dot",
    "Moment",
    "Panel",
    "Reading",
    "State",
]


AWAITED = "…"
"""What stands where words or a number are still being worked out."""


@dataclass(frozen=True)
class Reading:
    """One line of the table of readings: a number of the model (or one a time) under its name.

    `ways` are the words for more and less than nought; they stand in for the sign. A value of
    None is still being worked out: until it comes, "…" stands for it.
    """

    label: str
    value: Value
    measure: Measure
    ways: tuple[str, str] | None = None

    def text(self, system: System, brief: bool = False) -> str:
        """Return the number with its unit; of a run, the number at its start."""
        if self.value is None:
            return AWAITED
        value = self.value[0] if isinstance(self.value, list) else self.value
        if self.ways is None:
            return self.measure.text(value, system, brief)
        way = self.ways[0] if value > 0 else self.ways[1]
        return f"{self.measure.text(abs(value), system)} {way}"


@dataclass(frozen=True)
class Axis:
    """One axis of a chart; `low` and `high` are in SI.

    Where `high` is NaN it is still being worked out: until it comes the axis stays as it was.
    """

    label: str
    measure: Measure
    low: float
    high: float


@dataclass(frozen=True)
class Curve:
    """A line of a chart in SI.

    `role` is how it is drawn: "lead" for the circuit's own curve, "other" for what it is held
    against, "third", "fourth" and "fifth" where there are more, "mark" for a value on the card;
    each has dashes of its own beside its colour. A curve without `x` is still being worked out:
    until it comes the browser shows the one that stood there before.
    """

    role: str
    x: Any = None
    y: Any = None
    label: str = ""


@dataclass(frozen=True)
class Band:
    """Everything above `low` on the upright axis: hatched, and named in words."""

    low: float
    label: str


@dataclass(frozen=True)
class Dot:
    """Where the bench stands now (or at each time)."""

    x: Value
    y: Value


@dataclass(frozen=True)
class Panel:
    """One plot of a chart; `share` is its part of the height."""

    y: Axis
    curves: tuple[Curve, ...]
    dot: Dot | None = None
    band: Band | None = None
    share: float = 1.0


@dataclass(frozen=True)
class Chart:
    """Plots over one axis, as data; the axes stay while the controls move, the rest follows."""

    x: Axis
    panels: tuple[Panel, ...]


@dataclass(frozen=True)
class Moment:
    """From `time` [s] on this sentence tells what happens in a run."""

    time: float
    words: str


@dataclass(frozen=True)
class State:
    """A bench at one setting of its controls.

    Parameters
    ----------
    readings
        The table beside the plot, most telling line first.
    numbers
        What the drawing is placed by, under the names its `data-set` attributes use. Parts whose
        number is left out stay where they are until it comes.
    chart
        The plot.
    verdict
        One sentence: what the circuit does now. It is shown, and read out. `AWAITED` while only
        the rest of the work can tell.
    drawn
        The drawing in words.
    plotted
        The plot in words.
    alarm
        True when the verdict is a warning.
    gauges
        The dials beside the table.
    times
        Times of a run [s], rising from 0; None where nothing runs. The chart's x is then time.
    moments
        What happens when in the run, first one at 0.
    """

    readings: tuple[Reading, ...]
    numbers: Mapping[str, Value]
    chart: Chart
    verdict: str
    drawn: str
    plotted: str
    alarm: bool = False
    gauges: tuple[Gauge, ...] = ()
    times: Sequence[float] | None = None
    moments: tuple[Moment, ...] = ()

    @property
    def whole(self) -> bool:
        """Whether every curve is there."""
        return all(curve.x is not None for each in self.chart.panels for curve in each.curves)

    @property
    def told(self) -> bool:
        """Whether every reading is there."""
        return all(line.value is not None for line in self.readings)

    def at(self, time: float) -> "State":
        """Return the state at one moment of the run; without a run, the state itself."""
        times = self.times
        if times is None:
            return self

        def then(value: Value) -> float:
            return interpolate(time, times, value) if isinstance(value, list) else value

        panels = tuple(
            replace(each, dot=each.dot and Dot(then(each.dot.x), then(each.dot.y)))
            for each in self.chart.panels
        )
        return replace(
            self,
            readings=tuple(replace(each, value=then(each.value)) for each in self.readings),
            gauges=tuple(replace(each, value=then(each.value)) for each in self.gauges),
            numbers={name: then(value) for name, value in self.numbers.items()},
            chart=replace(self.chart, panels=panels),
            verdict=" ".join(
                [self.verdict, *[e.words for e in self.moments if e.time <= time][-1:]]
            ),
        )

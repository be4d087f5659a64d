"""What a bench computes at one setting of its controls: everything the browser then shows."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from fuelcircuits.benches.measure import Measure, System

__all__ = ["Axis", "Band", "Chart", "Curve", "Dot", "Reading", "State"]


@dataclass(frozen=True)
class Reading:
    """One line of the table of readings: a number of the model under its name."""

    label: str
    value: float
    measure: Measure

    def text(self, system: System) -> str:
        """Return the number with its unit."""
        return self.measure.text(self.value, system)


@dataclass(frozen=True)
class Axis:
    """One axis of a chart; `low` and `high` are in SI."""

    label: str
    measure: Measure
    low: float
    high: float


@dataclass(frozen=True)
class Curve:
    """A line of a chart in SI; `role` picks how it is drawn (see `plot.STYLES`).

    `label` stands beside the point with number `at` (from the end if negative), above the line
    or below it.
    """

    role: str
    x: Any
    y: Any
    label: str = ""
    at: int = -1
    above: bool = True


@dataclass(frozen=True)
class Band:
    """Everything above `low` on the upright axis: hatched, and named in words."""

    low: float
    label: str


@dataclass(frozen=True)
class Dot:
    """Where the bench stands now."""

    x: float
    y: float


@dataclass(frozen=True)
class Chart:
    """A plot as data; the axes stay put while the controls move, the rest follows them."""

    x: Axis
    y: Axis
    curves: tuple[Curve, ...]
    dot: Dot | None = None
    band: Band | None = None


@dataclass(frozen=True)
class State:
    """A bench at one setting of its controls.

    Parameters
    ----------
    readings
        The table beside the plot, most telling line first.
    numbers
        What the drawing is placed by, under the names its `data-bind` attributes use.
    chart
        The plot.
    verdict
        One sentence: what the circuit does now. It is shown, and read out.
    drawn
        The drawing in words.
    plotted
        The plot in words.
    alarm
        True when the verdict is a warning.
    """

    readings: tuple[Reading, ...]
    numbers: Mapping[str, float]
    chart: Chart
    verdict: str
    drawn: str
    plotted: str
    alarm: bool = field(default=False)

"""A bench: a simulator beside the text. Python computes, the browser only draws.

A new bench is a subclass with its controls as class attributes, one pure function `compute`,
and one SVG file in `static` whose moving parts name their numbers in `data-bind`.
"""

from collections.abc import Mapping
from importlib.resources import files
from typing import Any, ClassVar, cast

import anywidget
import traitlets

from fuelcircuits.benches.control import Control
from fuelcircuits.benches.figure import StaticFigure, compose
from fuelcircuits.benches.measure import System
from fuelcircuits.benches.plot import DARK, LIGHT, Plot
from fuelcircuits.benches.state import State
from fuelcircuits.errors import CircuitError

__all__ = ["Bench"]

STATIC = files(__package__) / "static"
SCRIPTS = ("drawing.js", "controls.js", "bench.js")
STYLES = ("drawing.css", "bench.css")


class Bench(anywidget.AnyWidget):
    """The base of every bench; `start` overrides where named controls begin and reset to.

    A control's trait holds its SI value: ``bench.fuel_pressure = 35e3`` does what the slider does.
    """

    _esm = "\n".join((STATIC / script).read_text("utf-8") for script in SCRIPTS)
    _css = "\n".join((STATIC / style).read_text("utf-8") for style in STYLES)

    title: ClassVar[str]
    picture: ClassVar[str]

    system: Any = traitlets.Enum(["SI", "US"], default_value="SI").tag(sync=True)
    theme = traitlets.Enum(["light", "dark"], default_value="light").tag(sync=True)
    pinned = traitlets.Bool(False).tag(sync=True)

    about: Any = traitlets.Dict().tag(sync=True)
    readings: Any = traitlets.List().tag(sync=True)
    numbers: Any = traitlets.Dict().tag(sync=True)
    verdict = traitlets.Unicode().tag(sync=True)
    alarm = traitlets.Bool(False).tag(sync=True)
    drawn = traitlets.Unicode().tag(sync=True)
    plotted = traitlets.Unicode().tag(sync=True)
    plot = traitlets.Bytes(b"").tag(sync=True)

    def __init__(self, **start: float) -> None:
        super().__init__()
        self._plot: Plot | None = None
        self._inputs: tuple[Any, ...] = ()
        self._before: dict[str, float] | None = None
        self.set_trait("about", self._about(start))
        for name, value in start.items():
            setattr(self, name, value)
        self.observe(self._refresh, [*self.controls(), "system", "theme", "pinned"])
        self._refresh()

    def compute(self, values: Mapping[str, float], system: System) -> State:
        """Return the state for these control values; pure, and the same for the same values."""
        raise NotImplementedError

    @classmethod
    def controls(cls) -> dict[str, Control]:
        """Return the controls by name, in the order in which the class lists them."""
        found = cls.class_traits()
        order = [name for kind in reversed(cls.__mro__) for name in vars(kind)]
        return {name: found[name] for name in order if isinstance(found.get(name), Control)}

    def values(self) -> dict[str, float]:
        """Return the controls' values in SI."""
        return {name: getattr(self, name) for name in self.controls()}

    def figure(self) -> StaticFigure:
        """Return drawing, plot and readings as they stand, for paper."""
        now, before = self._states()
        chart = self._plot_for(now).vector(
            now.chart, before.chart if before else None, self.system, LIGHT
        )
        drawing = (STATIC / self.picture).read_text("utf-8")
        return compose(self.title, drawing, chart, now, self.system)

    def _repr_mimebundle_(self, **asked: Any) -> Any:
        """Show the bench, and where no bench can run, on paper, the figure in its stead."""
        live, notes = cast(Any, super()._repr_mimebundle_(**asked))
        return live | self.figure()._repr_mimebundle_(), notes

    def _about(self, start: Mapping[str, float]) -> dict[str, Any]:
        controls = self.controls()
        specs = [
            control.spec(start.get(name, control.default_value))
            for name, control in controls.items()
        ]
        drawing = (STATIC / self.picture).read_text("utf-8")
        return {"title": self.title, "drawing": drawing, "controls": specs}

    def _states(self) -> tuple[State, State | None]:
        """Return the state now and, while one is pinned, the state before."""
        now = self.compute(self.values(), self.system)
        if self._before is None:
            return now, None
        return now, self.compute(self._before, self.system)

    def _plot_for(self, state: State) -> Plot:
        """Return the figure, made for the panels of the first state and kept."""
        if self._plot is None:
            self._plot = Plot([panel.share for panel in state.chart.panels])
        return self._plot

    def _refresh(self, _change: object = None) -> None:
        """Compute and show, once for each change of anything that matters."""
        inputs = (*self.values().values(), self.system, self.theme, self.pinned)
        if inputs == self._inputs:
            return
        if not self.pinned:
            self._before = None
        elif self._before is None:
            self._before = self.values()
        self._inputs = inputs
        with self.hold_sync():
            try:
                self._show(*self._states())
            except CircuitError as error:
                self.alarm, self.verdict = True, f"Outside what the model covers: {error}"

    def _show(self, now: State, before: State | None) -> None:
        palette = DARK if self.theme == "dark" else LIGHT
        self.readings = _table(now, before, self.system)
        self.numbers = dict(now.numbers)
        self.verdict, self.alarm = now.verdict, now.alarm
        self.drawn, self.plotted = now.drawn, now.plotted
        old = before.chart if before else None
        self.plot = self._plot_for(now).paint(now.chart, old, self.system, palette)


def _table(now: State, before: State | None, system: System) -> list[dict[str, str]]:
    """Return the lines of the table of readings, short when there are two columns of them."""
    lines = [
        {"label": line.label, "now": line.text(system, brief=before is not None), "before": ""}
        for line in now.readings
    ]
    for line, old in zip(lines, before.readings if before else (), strict=False):
        line["before"] = old.text(system, brief=True)
    return lines

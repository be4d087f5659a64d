"""A bench: a simulator beside the text. Python computes, the browser only draws.

A new bench is a subclass with its controls as class attributes, one pure function `compute`,
and one SVG file beside it whose moving parts name their numbers in `data-bind`.
"""

from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import Any, ClassVar, cast

import anywidget
import traitlets

from fuelcircuits.benches.frame import wire
from fuelcircuits.benches.frame.answers import Answers
from fuelcircuits.benches.frame.choice import Choice, Switch
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.figure import StaticFigure, compose
from fuelcircuits.benches.frame.gauge import shown
from fuelcircuits.benches.frame.measure import System
from fuelcircuits.benches.frame.plot import vector
from fuelcircuits.benches.frame.state import State
from fuelcircuits.errors import CircuitError

__all__ = ["Bench"]

STATIC = files(__package__) / "static"
SCRIPTS = (
    "measure.js",
    "drawing.js",
    "controls.js",
    "plot.js",
    "gauge.js",
    "player.js",
    "bench.js",
)
STYLES = ("drawing.css", "bench.css", "plot.css")


class Bench(anywidget.AnyWidget):
    """The base of every bench; `start` overrides where named controls begin and reset to.

    A control's trait holds its SI value (or its word, or whether it is on):
    ``bench.fuel_pressure = 35e3`` does what the slider does.
    """

    _esm = "\n".join((STATIC / script).read_text("utf-8") for script in SCRIPTS)
    _css = "\n".join((STATIC / style).read_text("utf-8") for style in STYLES)

    title: ClassVar[str]
    picture: ClassVar[str]
    needs_rig: ClassVar[bool] = True
    page_grid: ClassVar[Mapping[str, int]] = {}
    """Controls that the bench's page offers, each with its number of places in the table."""
    keeps: ClassVar[Mapping[str, tuple[str, ...]]] = {}
    """Controls that leave "drawing", "plot" or "readings" as they are, with which of these."""

    needs: ClassVar[Mapping[str, Mapping[str, Any]]] = {}
    """Controls that tell only once others are set: by name, these others and to what."""

    system: Any = traitlets.Enum(["SI", "US"], default_value="SI").tag(sync=True)
    pinned: Any = traitlets.Dict().tag(sync=True)
    """What every input was set to in the state that is kept to compare with; empty if none is."""
    at = traitlets.Float(0.0).tag(sync=True)
    seed: Any = traitlets.Int(None, allow_none=True)

    about: Any = traitlets.Dict().tag(sync=True)
    numbers: Any = traitlets.Dict().tag(sync=True)
    readings: Any = traitlets.List().tag(sync=True)
    gauges: Any = traitlets.List().tag(sync=True)
    chart: Any = traitlets.Dict().tag(sync=True)
    before: Any = traitlets.Dict().tag(sync=True)
    run: Any = traitlets.Dict().tag(sync=True)
    verdict = traitlets.Unicode().tag(sync=True)
    alarm = traitlets.Bool(False).tag(sync=True)
    drawn = traitlets.Unicode().tag(sync=True)
    plotted = traitlets.Unicode().tag(sync=True)

    @classmethod
    def drawing(cls) -> str:
        """Return the bench's own drawing, which lies beside its module."""
        return (files(cls.__module__.rpartition(".")[0]) / cls.picture).read_text("utf-8")

    def __init__(self, **start: Any) -> None:
        super().__init__()
        self._inputs: tuple[Any, ...] = ()
        self._answers = Answers(self)
        self.set_trait("about", self._about(start))
        for name, value in start.items():
            setattr(self, name, value)
        self.observe(self._refresh, [*self.inputs(), "system", "pinned", "seed"])
        self._refresh()

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        """Return the state for these control values; pure, and the same for the same values."""
        raise NotImplementedError

    @classmethod
    @cache
    def inputs(cls) -> dict[str, Control | Choice | Switch]:
        """Return everything that can be set, by name, in the order in which the class lists it."""
        found = cls.class_traits()
        order = [name for kind in reversed(cls.__mro__) for name in vars(kind)]
        kinds = (Control, Choice, Switch)
        return {name: found[name] for name in order if isinstance(found.get(name), kinds)}

    @classmethod
    def controls(cls) -> dict[str, Control]:
        """Return the inputs that are numbers."""
        return {name: each for name, each in cls.inputs().items() if isinstance(each, Control)}

    def values(self) -> dict[str, Any]:
        """Return what every input is set to, numbers in SI."""
        return {name: getattr(self, name) for name in self.inputs()}

    def state(self) -> State:
        """Return the state as the bench stands."""
        return self._answers.state(self.values(), self.system)

    def measured(self) -> dict[str, Any]:
        """Return what each gauge shows, in SI: the model's value with the error of `seed`."""
        values = self.values()
        return {each.label: shown(each, self.seed, values) for each in self.state().gauges}

    def figure(self) -> StaticFigure:
        """Return drawing, plot and readings as they stand, for paper."""
        now, before = self._states()
        then = now.at(self.at)
        old = before.at(self.at).chart if before else None
        cursor = None if now.times is None else self.at
        drawing = self.drawing()
        plot = vector(then.chart, old, self.system, cursor)
        return compose(self.title, drawing, plot, then, self.system)

    def _repr_mimebundle_(self, **asked: Any) -> Any:
        """Show the bench, and where no bench can run, on paper, the figure in its stead."""
        live, notes = cast(Any, super()._repr_mimebundle_(**asked))
        return live | self.figure()._repr_mimebundle_(), notes

    def _about(self, start: Mapping[str, Any]) -> dict[str, Any]:
        inputs = self.inputs()
        specs = [each.spec(start.get(name, each.default_value)) for name, each in inputs.items()]
        drawing = self.drawing()
        return {"title": self.title, "drawing": drawing, "controls": specs, "time": self._facts()}

    def _facts(self) -> dict[str, Any]:
        """Return what the browser needs to play a run; nothing where none is."""
        return {}

    def _states(self) -> tuple[State, State | None]:
        """Return the state now and, while one is pinned, the state before."""
        if not self.pinned:
            return self.state(), None
        return self.state(), self._answers.state(self.values() | self.pinned, self.system)

    def _refresh(self, change: Any = None) -> None:
        """Compute and show, once for each change of anything that matters."""
        inputs = (*self.values().values(), self.system, self.pinned, self.seed)
        if inputs == self._inputs:
            return
        self._inputs = inputs
        with self.hold_sync():
            try:
                self._show(*self._states())
            except CircuitError as error:
                self.alarm, self.verdict = True, f"Outside what the model covers: {error}"
        if change and change.name in self.controls():
            self._foresee(change)

    def _foresee(self, change: Any) -> None:
        """Let the next step of the control that moved be worked out before it is asked for."""
        control = self.controls()[change.name]
        onward = control.onward(change.old, change.new, self.system)
        if onward is not None:
            self._answers.foresee(self.values() | {change.name: onward}, self.system)

    def _show(self, now: State, before: State | None) -> None:
        values = self.values()
        self.numbers, self.readings = wire.numbers(now), wire.readings(now)
        self.gauges = wire.gauges(now, [shown(each, self.seed, values) for each in now.gauges])
        self.chart, self.run = wire.chart(now.chart), wire.run(now)
        self.before = _kept(before) if before else {}
        self.verdict, self.alarm = now.verdict, now.alarm
        self.drawn, self.plotted = now.drawn, now.plotted


def _kept(before: State) -> dict[str, Any]:
    """Return what is shown of the pinned state."""
    return {"readings": wire.readings(before), "chart": wire.chart(before.chart)}

"""A bench: a simulator beside the text. Python computes, the browser only draws.

A new bench is a subclass with its controls as class attributes, one pure function `compute`,
and one SVG file beside it whose moving parts name their numbers in `data-set`. It is a plain
class: widget.py shows it in a notebook, and a page without a kernel may ask the very same
`Bench.answer`.
"""

from collections.abc import Mapping
from copy import copy
from importlib.resources import files
from typing import TYPE_CHECKING, Any, ClassVar, Self, cast

from fuelcircuits.benches.frame import wire
from fuelcircuits.benches.frame.answers import Answers
from fuelcircuits.benches.frame.choice import Choice, Switch
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.gauge import shown
from fuelcircuits.benches.frame.measure import System
from fuelcircuits.benches.frame.setting import Setting, Settled, Side
from fuelcircuits.benches.frame.state import State
from fuelcircuits.diagnosis.march import March
from fuelcircuits.errors import CircuitError

if TYPE_CHECKING:
    from fuelcircuits.benches.frame.figure import StaticFigure
    from fuelcircuits.benches.frame.widget import LiveBench

__all__ = ["Bench"]


class Bench(Settled):
    """The base of every bench; `start` overrides where named controls begin and reset to.

    A control holds its SI value (or its word, or whether it is on):
    ``bench.fuel_pressure = 35e3`` does what the slider does.
    """

    title: ClassVar[str]
    picture: ClassVar[str]
    needs_rig: ClassVar[bool] = True
    page_grid: ClassVar[Mapping[str, int]] = {}
    """Controls that the bench's page offers, each with its number of places in the table."""
    keeps: ClassVar[Mapping[str, tuple[str, ...]]] = {}
    """Controls that leave "drawing", "plot" or "readings" as they are, with which of these."""

    needs: ClassVar[Mapping[str, Mapping[str, Any]]] = {}
    """Controls that tell only once others are set: by name, these others and to what."""

    system = Side("SI")
    pinned: Setting[Mapping[str, Any]] = Setting({})
    """What every input was set to in the state that is kept to compare with; empty if none is."""
    at = Setting(0.0)
    """The time of a run that is shown [s]."""
    seed: Setting[int | None] = Setting(None)
    """The random seed of the gauges' errors; without one they have none."""

    def __init__(self, **start: Any) -> None:
        super().__init__()
        self._answers = Answers(self)
        self._live: LiveBench | None = None
        self.put(**start)
        self.starts = self.values()

    @classmethod
    def drawing(cls) -> str:
        """Return the drawing, which lies beside the module of the class that names it."""
        home = next(kind.__module__ for kind in cls.__mro__ if "picture" in vars(kind))
        return (files(home.rpartition(".")[0]) / cls.picture).read_text("utf-8")

    @classmethod
    def inputs(cls) -> dict[str, Control | Choice | Switch]:
        """Return every control by name, in the order in which the class lists them."""
        kinds = (Control, Choice, Switch)
        return {name: each for name, each in cls.every.items() if isinstance(each, kinds)}

    @classmethod
    def controls(cls) -> dict[str, Control]:
        """Return the inputs that are numbers."""
        return {name: each for name, each in cls.inputs().items() if isinstance(each, Control)}

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        """Return the state for these control values; pure, and the same for the same values."""
        raise NotImplementedError

    def point(self, values: Mapping[str, Any], system: System) -> State:
        """Return the state without the curves that take long; all of it where none does.

        A bench that overrides this leaves out the points of those curves, as in
        ``Curve("lead", label="inlet")``, and what `plotted` tells of them. Where a whole run is
        marched it also leaves out what only the march can tell: a reading has the value None, a
        number of the drawing is not there, and the verdict is `AWAITED`. What does stand is what
        `compute` says too. The browser shows it at once, and the rest after.
        """
        return self._answers.state(values, system)

    def pieces(self, values: Mapping[str, Any], system: System) -> March[State]:
        """Work out what `compute` returns with rests in between, where it takes long."""
        yield from ()
        return self.compute(values, system)

    def told(self, values: Mapping[str, Any], system: System) -> State:
        """Return the least state that has every reading: the point, or else the whole."""
        point = self.point(values, system)
        return point if point.told else self._answers.state(values, system)

    def values(self) -> dict[str, Any]:
        """Return what every input is set to, numbers in SI."""
        return {name: self.settings[name] for name in self.inputs()}

    def stand(self, **settings: Any) -> Self:
        """Put settings, numbers in SI, to which a reset goes back: as a job came in."""
        self.put(**settings)
        self.starts = self.values()
        return self

    def state(self, changed: Mapping[str, Any] | None = None) -> State:
        """Return the state as the bench stands, or with some inputs changed."""
        return self._answers.state({**self.values(), **(changed or {})}, self.system)

    def measured(self) -> dict[str, Any]:
        """Return what each gauge shows, in SI: the model's value with the error of `seed`."""
        values = self.values()
        return {each.label: shown(each, self.seed, values) for each in self.state().gauges}

    def answer(
        self,
        values: Mapping[str, Any],
        system: System,
        seed: int | None = None,
        curves: bool = True,
        within: float | None = None,
    ) -> dict[str, Any]:
        """Return all that the browser shows, as plain data that JSON can carry.

        Parameters
        ----------
        values
            What inputs are set to; the others stay as the bench stands.
        system
            The side of the units switch.
        seed
            The random seed of the gauges' errors.
        curves
            Whether to work out every curve; without, the answer may lack some, and says so: it
            is not "whole".
        within
            Time after which to rest if the curves take longer [s]: the answer is then no more
            than that it is not "whole", and the same question goes on with the work.
        """
        inputs = self.inputs()
        asked = {name: inputs[name].checked(value) for name, value in values.items()}
        asked = self.values() | asked
        try:
            now: State | None
            if not curves:
                now = self._answers.first(asked, system)
            elif within is None:
                now = self._answers.state(asked, system)
            else:
                now = self._answers.within(asked, system, within)
        except CircuitError as error:
            said = f"Outside what the model covers: {error}"
            return {"alarm": True, "verdict": said, "whole": True}
        if now is None:
            return {"whole": False}
        return wire.answer(now, [shown(each, seed, asked) for each in now.gauges])

    def twin(self) -> Self:
        """Return another bench that stands where this one does, and moves by itself."""
        other = copy(self)
        other.settings, other._watchers = dict(self.settings), []
        other._answers, other._live = Answers(other), None
        return other

    def foresee(self, values: Mapping[str, Any]) -> None:
        """Work out the state at these values too, once nobody asks for another."""
        self._answers.foresee({**self.values(), **values}, self.system)

    def onward(
        self,
        values: Mapping[str, Any],
        system: System,
        *,
        moved: str,
        old: float,
        within: float,
        steps: int = 1,
    ) -> bool:
        """Work out a piece of what is asked if a control goes on; return whether that is all.

        Parameters
        ----------
        values, system
            As in `answer`.
        moved, old
            The control's name, and where it came from.
        within
            Time after which to rest from curves [s].
        steps
            How many steps on; the curves, where these come in pieces, of a single one.
        """
        control, asked = self.controls()[moved], self.values() | dict(values)
        for _ in range(steps):
            onward = control.onward(old, asked[moved], system)
            if onward is None:
                return True
            old, asked = asked[moved], asked | {moved: onward}
            if not self._answers.has(asked, system):
                self.answer(asked, system, self.seed, curves=False)
                return not self._answers.has(asked, system)
        if steps > 1 or type(self).pieces is Bench.pieces:
            return True
        return self.answer(asked, system, self.seed, within=within)["whole"] is True

    def about(self) -> dict[str, Any]:
        """Return what the browser needs to build the bench."""
        specs = [each.spec(self.starts[name]) for name, each in self.inputs().items()]
        return {
            "title": self.title,
            "drawing": self.drawing(),
            "controls": specs,
            "time": self._facts(),
            "system": self.system,
        }

    def figure(self) -> "StaticFigure":
        """Return drawing, plot and readings as they stand, for paper."""
        from fuelcircuits.benches.frame.figure import on_paper  # noqa: PLC0415 - needs matplotlib

        now, pinned = self.state(), self.state(self.pinned) if self.pinned else None
        return on_paper(self.title, self.drawing(), now, pinned, at=self.at, system=self.system)

    def widget(self) -> "LiveBench":
        """Return the live bench of a notebook: one, however often it is shown."""
        from fuelcircuits.benches.frame.widget import live  # noqa: PLC0415 - needs anywidget

        self._live = self._live or live(self)
        return self._live

    def _repr_mimebundle_(self, **asked: Any) -> Any:
        """Show the bench, and where no bench can run, on paper, the figure in its stead."""
        live, notes = cast(Any, self.widget()._repr_mimebundle_(**asked))
        return live | self.figure()._repr_mimebundle_(), notes

    def _facts(self) -> dict[str, Any]:
        """Return what the browser needs to play a run; nothing where none is."""
        return {}

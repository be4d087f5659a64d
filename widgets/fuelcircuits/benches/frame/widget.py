"""A bench in a notebook: its settings and what it shows, kept the same in kernel and browser.

What is set in the browser is put on the bench; what is put on the bench is shown. A bench that
answers in two stages is shown at once without the curves that take long. These follow when the
kernel has had a moment to hear of a newer question, which drops them.
"""

import asyncio
from collections.abc import Mapping
from functools import cache
from typing import Any, Protocol

import anywidget
import traitlets
from ipywidgets import widget_serialization

from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.measure import System
from fuelcircuits.benches.frame.scripts import NOTEBOOK, STYLES, bundle, styles
from fuelcircuits.benches.frame.setting import Setting, Watcher

__all__ = ["AskedBench", "LiveBench", "asked", "live"]

MOMENT = 0.01
"""Seconds that the kernel's loop is free between an answer and its curves."""
SHARED = ("system", "pinned", "at")
"""What a browser sets besides the inputs."""


class Answering(Protocol):
    """What a bench is to whoever shows it live."""

    settings: dict[str, Any]
    pinned: Any
    system: Any
    seed: Any

    def inputs(self) -> Mapping[str, Setting[Any]]:
        """Return every control by name."""

    def controls(self) -> Mapping[str, Control]:
        """Return the controls that are numbers."""

    def about(self) -> dict[str, Any]:
        """Return what the browser needs to build the bench."""

    def answer(
        self, values: Mapping[str, Any], system: System, seed: int | None = ..., curves: bool = ...
    ) -> dict[str, Any]:
        """Return all that the browser shows."""

    def put(self, **settings: Any) -> None:
        """Set several settings."""

    def twin(self) -> "Answering":
        """Return another bench that stands where this one does."""

    def watch(self, watcher: Watcher) -> None:
        """Let `watcher` hear of every change."""

    def foresee(self, values: Mapping[str, Any]) -> None:
        """Work out an answer before it is asked for."""


class _Mirror(traitlets.TraitType[Any, Any]):
    """What a setting stands at; the setting itself says what it takes."""

    def __init__(self, setting: Setting[Any]) -> None:
        super().__init__(default_value=setting.start)
        self.setting = setting
        self.tag(sync=True, echo_update=False)

    def validate(self, obj: Any, value: Any) -> Any:
        """Refuse what the setting refuses."""
        return self.setting.checked(value)


class LiveBench(anywidget.AnyWidget):
    """A bench as the browser has it; the class of each kind of bench adds a trait an input."""

    _esm = bundle(NOTEBOOK)
    _css = styles(STYLES)

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
    whole = traitlets.Bool(True).tag(sync=True)
    twin: Any = traitlets.Any(None).tag(sync=True, **widget_serialization)
    """A second setting that is shown beside this one; none if nobody has asked for it."""

    def __init__(self, bench: Answering) -> None:
        self._bench = bench
        self._later: asyncio.TimerHandle | None = None
        self._names = (*bench.inputs(), *SHARED)
        super().__init__(about=bench.about(), **self._stand(), **self._answer())
        self.observe(self._heard, self._names)
        self.on_msg(self._paired)
        bench.watch(self._follow)

    def _stand(self) -> dict[str, Any]:
        """Return what the bench stands at."""
        return {name: self._bench.settings[name] for name in self._names}

    def _answer(self, curves: bool = True) -> dict[str, Any]:
        """Return what the bench shows now, beside what it showed when it was pinned."""
        bench = self._bench
        now = bench.answer({}, bench.system, bench.seed, curves)
        old = bench.answer(bench.pinned, bench.system) if bench.pinned else {}
        return now | {"before": {name: old[name] for name in ("readings", "chart") if name in old}}

    def _paired(self, _widget: Any, message: Mapping[str, Any], _buffers: Any) -> None:
        """Show a second setting beside this one, or no longer."""
        if not message.get("twin"):
            self.twin = None
        elif self.twin is None:
            other = live(self._bench.twin())
            other.about = {**other.about, "title": f"{other.about['title']}, second setting"}
            self.twin = other

    def _heard(self, _change: Any) -> None:
        """Put on the bench all that one message of the browser has set."""
        self._bench.put(**{name: getattr(self, name) for name in self._names})

    def _follow(self, before: Mapping[str, Any]) -> None:
        """Show the bench as it stands, and what it stood at before the change is no more."""
        now = self._bench.settings
        with self.hold_sync():
            with self.hold_trait_notifications():  # or it would put back what is not yet mirrored
                self._take(self._stand())
            if now | {"at": before["at"]} != before:
                self._show(before)

    def _show(self, before: Mapping[str, Any]) -> None:
        """Show an answer, whole where no loop runs or all of it is there, else its curves later."""
        if self._later:
            self._later.cancel()
        loop = _loop()
        self._take(self._answer(curves=loop is None))
        onward = self._onward(before)
        if loop and not self.whole:
            self._later = loop.call_later(MOMENT, self._finish, onward)
        elif onward:
            self._bench.foresee(onward)

    def _finish(self, onward: Mapping[str, float]) -> None:
        """Show the curves too, and let the next step be worked out before it is asked for."""
        with self.hold_sync():
            self._take(self._answer())
        if onward:
            self._bench.foresee(onward)

    def _onward(self, before: Mapping[str, Any]) -> dict[str, float]:
        """Return where the control that moved would go with its next step."""
        bench = self._bench
        for name, control in bench.controls().items():
            old, new = before[name], bench.settings[name]
            onward = control.onward(old, new, bench.system) if new != old else None
            if onward is not None:
                return {name: onward}
        return {}

    def _take(self, parts: Mapping[str, Any]) -> None:
        for name, part in parts.items():
            setattr(self, name, part)


class Asking(Protocol):
    """What a bench is that answers questions one by one."""

    def ask(self, do: str, **asked: Any) -> dict[str, Any]:
        """Return the answer to a question."""

    def about(self) -> dict[str, Any]:
        """Return what the browser needs to build the bench."""

    def first(self) -> dict[str, Any]:
        """Return what it shows first."""

    def script(self) -> str:
        """Return what draws it."""

    def style(self) -> str:
        """Return how it looks."""


class AskedBench(anywidget.AnyWidget):
    """A bench whose browser asks: nothing runs in the kernel but what a message asks for."""

    about: Any = traitlets.Dict().tag(sync=True)
    first: Any = traitlets.Dict().tag(sync=True)

    def __init__(self, bench: Asking) -> None:
        self._bench = bench
        super().__init__(about=bench.about(), first=bench.first())
        self.on_msg(self._asked)

    def _asked(self, _widget: Any, message: Mapping[str, Any], _buffers: Any) -> None:
        """Answer a question under its number."""
        number = message["number"]
        try:
            answer: dict[str, Any] = {"answer": self._bench.ask(**message["question"])}
        except (KeyError, TypeError, ValueError) as error:
            answer = {"error": f"{type(error).__name__}: {error}"}
        self.send({"number": number} | answer)


def asked(bench: Asking) -> AskedBench:
    """Return a live bench that asks `bench`."""
    made: AskedBench = _asked_kind(bench.script(), bench.style())(bench)
    return made


@cache
def _asked_kind(script: str, style: str) -> Any:
    """Return the class of the live benches that are drawn by one script."""
    meta: Any = type(AskedBench)
    facts = {"_esm": script, "_css": style, "__module__": __name__}
    return meta("AskedOne", (AskedBench,), facts)


def live(bench: Answering) -> LiveBench:
    """Return a live bench that follows `bench`."""
    kind: Any = type(bench)
    made: LiveBench = _kind(kind)(bench)
    return made


@cache
def _kind(kind: Any) -> Any:
    """Return the class of the live benches of one kind."""
    settings: dict[str, Setting[Any]] = dict(kind.inputs())
    settings |= {name: getattr(kind, name) for name in SHARED}
    traits: dict[str, Any] = {name: _Mirror(each) for name, each in settings.items()}
    meta: Any = type(LiveBench)
    return meta(f"Live{kind.__name__}", (LiveBench,), traits | {"__module__": __name__})


def _loop() -> asyncio.AbstractEventLoop | None:
    """Return the loop that runs, if one does."""
    try:
        return asyncio.get_running_loop()
    except RuntimeError:
        return None

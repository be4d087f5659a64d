"""The answers of a bench: the latest are kept, and the likeliest next is worked out beforehand."""

import asyncio
from collections.abc import Mapping
from contextlib import suppress
from time import perf_counter
from typing import Any, Protocol

from fuelcircuits.benches.frame.measure import System
from fuelcircuits.benches.frame.state import State
from fuelcircuits.diagnosis.march import March
from fuelcircuits.errors import CircuitError

__all__ = ["Answers"]

KEPT = 32
"""States that are kept, so that a step back, or a pinned state, is not worked out again."""
BEGUN = 4
"""States that are half worked out and may be gone on with: two benches side by side, and a pin."""
QUIET = 0.06
"""Seconds without a question after which the next is prepared: the answer is painted by then."""

Key = tuple[tuple[tuple[str, Any], ...], System]


class _Computing(Protocol):
    def point(self, values: Mapping[str, Any], system: System) -> State: ...
    def compute(self, values: Mapping[str, Any], system: System) -> State: ...
    def pieces(self, values: Mapping[str, Any], system: System) -> March[State]: ...


class Answers:
    """The states of a bench, each computed once.

    A setting that is neither kept nor foreseen is worked out when it is asked for; nothing
    stands in for the model's answer.
    """

    def __init__(self, bench: _Computing) -> None:
        self._timer: asyncio.TimerHandle | None = None
        self._known: dict[Key, State] = {}
        self._points: dict[Key, State] = {}
        self._bench = bench
        self._begun: dict[Key, March[State]] = {}

    def state(self, values: Mapping[str, Any], system: System) -> State:
        """Return the state at these values; whatever else was foreseen can wait no longer."""
        self._hurry()
        return self._worked_out((tuple(values.items()), system))

    def first(self, values: Mapping[str, Any], system: System) -> State:
        """Return the state without the curves that cost; the whole of it where that is known."""
        self._hurry()
        key = (tuple(values.items()), system)
        known = self._known.get(key) or self._points.get(key)
        if known is None:
            known = self._points[key] = self._bench.point(values, system)
            _trim(self._points, KEPT)
        return known

    def has(self, values: Mapping[str, Any], system: System) -> bool:
        """Return whether at least the state without its curves is there."""
        key = (tuple(values.items()), system)
        return key in self._known or key in self._points

    def within(self, values: Mapping[str, Any], system: System, seconds: float) -> State | None:
        """Return the state; None if it takes longer, and whoever asks again has it gone on with.

        The piece that is begun before the time [s] is over is brought to its end.
        """
        self._hurry()
        key = (tuple(values.items()), system)
        if key in self._known:
            return self._worked_out(key)
        work = self._begun.pop(key, None) or self._bench.pieces(values, system)
        until = perf_counter() + seconds
        try:
            next(work)
            while perf_counter() < until:
                next(work)
        except StopIteration as end:
            return self._kept(key, end.value)
        self._begun[key] = work
        _trim(self._begun, BEGUN)
        return None

    def foresee(self, values: Mapping[str, Any], system: System) -> None:
        """Work out these values too once nobody has asked for a while; in a script, do not."""
        with suppress(RuntimeError):  # no loop runs, so nobody is about to press a key
            loop = asyncio.get_running_loop()
            self._timer = loop.call_later(QUIET, self._prepare, (tuple(values.items()), system))

    def _hurry(self) -> None:
        if self._timer:
            self._timer.cancel()

    def _prepare(self, key: Key) -> None:
        with suppress(CircuitError):  # said in words if it is asked for
            self._worked_out(key)

    def _worked_out(self, key: Key) -> State:
        """Return a state, and keep it in the place of the one that was not asked for longest."""
        values, system = key
        known = self._known.pop(key, None)
        return self._kept(key, known or self._bench.compute(dict(values), system))

    def _kept(self, key: Key, state: State) -> State:
        self._known[key] = state
        _trim(self._known, KEPT)
        return state


def _trim(kept: dict[Key, Any], most: int) -> None:
    """Forget what was not asked for longest, if there is more than so much."""
    if len(kept) > most:
        del kept[next(iter(kept))]

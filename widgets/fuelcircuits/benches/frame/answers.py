"""The answers of a bench: the latest are kept, and the likeliest next is worked out beforehand."""

import asyncio
from collections.abc import Mapping
from contextlib import suppress
from functools import lru_cache
from typing import Any, Protocol

from fuelcircuits.benches.frame.measure import System
from fuelcircuits.benches.frame.state import State
from fuelcircuits.errors import CircuitError

__all__ = ["Answers"]

KEPT = 32
"""States that are kept, so that a step back, or a pinned state, is not worked out again."""
QUIET = 0.06
"""Seconds without a question after which the next is prepared: the answer is painted by then."""


class _Computing(Protocol):
    def compute(self, values: Mapping[str, Any], system: System) -> State: ...


class Answers:
    """The states of a bench, each computed once.

    A setting that is neither kept nor foreseen is worked out when it is asked for; nothing
    stands in for the model's answer.
    """

    def __init__(self, bench: _Computing) -> None:
        self._timer: asyncio.TimerHandle | None = None

        @lru_cache(KEPT)
        def work_out(values: tuple[tuple[str, Any], ...], system: System) -> State:
            return bench.compute(dict(values), system)

        self._work_out = work_out

    def state(self, values: Mapping[str, Any], system: System) -> State:
        """Return the state at these values; whatever else was foreseen can wait no longer."""
        if self._timer:
            self._timer.cancel()
        return self._work_out(tuple(values.items()), system)

    def foresee(self, values: Mapping[str, Any], system: System) -> None:
        """Work out these values too once nobody has asked for a while; in a script, do not."""
        with suppress(RuntimeError):  # no loop runs, so nobody is about to press a key
            loop = asyncio.get_running_loop()
            self._timer = loop.call_later(QUIET, self._prepare, tuple(values.items()), system)

    def _prepare(self, values: tuple[tuple[str, Any], ...], system: System) -> None:
        with suppress(CircuitError):  # said in words if it is asked for
            self._work_out(values, system)

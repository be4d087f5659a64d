"""Answers of a bench: computed once, and the next step's before it is asked for."""

import asyncio
from collections.abc import Mapping
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import pytest
from fuelcircuits.benches.float_bowl.bench import FloatBowlBench
from fuelcircuits.benches.frame import answers
from fuelcircuits.benches.frame.measure import System
from fuelcircuits.benches.frame.state import State
from fuelcircuits.cards import read_rig

from tests.places import RIGS

CARD = RIGS / "plover.toml"


class Counted(FloatBowlBench):
    """A float bench that writes down the fuel pressures it computes for."""

    def __init__(self) -> None:
        self.asked: list[float] = []
        super().__init__(read_rig(CARD))

    def compute(self, values: Mapping[str, Any], system: System) -> State:
        self.asked.append(values["fuel_pressure"])
        return super().compute(values, system)


@pytest.fixture
def bench(monkeypatch: pytest.MonkeyPatch) -> Counted:
    monkeypatch.setattr(answers, "QUIET", 0.02)
    made = Counted()
    made.fuel_pressure = 30.5e3
    made.asked.clear()
    return made


async def pressed(bench: Counted, *pressures: float, rest: float = 0.0) -> list[float]:
    """Set one pressure after another, each followed by a rest, and return what was computed."""
    for pressure in pressures:
        bench.fuel_pressure = pressure
        if rest:
            await asyncio.sleep(rest)
    return bench.asked


def test_step_back_is_not_computed_again(bench: Counted) -> None:
    bench.fuel_pressure = 31e3
    bench.fuel_pressure = 32e3
    bench.fuel_pressure = 31e3
    assert bench.asked == [31e3, 32e3]


def test_pinned_state_is_not_computed_with_every_step(bench: Counted) -> None:
    bench.pinned = bench.values()
    bench.fuel_pressure = 31e3
    assert bench.asked == [31e3]


def looped(bench: Counted, *pressures: float, rest: float = 0.0) -> list[float]:
    """Press in a loop of its own, in a thread of its own: a browser's test may hold this one's."""
    with ThreadPoolExecutor(1) as apart:
        return apart.submit(lambda: asyncio.run(pressed(bench, *pressures, rest=rest))).result()


def test_next_step_is_computed_in_the_rest_after_an_answer(bench: Counted) -> None:
    asked = looped(bench, 31e3, 31.5e3, rest=0.3)
    assert asked == pytest.approx([31e3, 31.5e3, 32e3])


def test_without_a_rest_only_what_is_asked_for_is_computed(bench: Counted) -> None:
    assert looped(bench, 31e3, 31.5e3, 32e3) == [31e3, 31.5e3, 32e3]


def test_what_was_computed_beforehand_is_what_is_shown(bench: Counted) -> None:
    looped(bench, 31e3, rest=0.3)
    bench.fuel_pressure = 31.5e3
    fresh = FloatBowlBench(read_rig(CARD))
    fresh.fuel_pressure = 31.5e3
    shown = ("chart", "readings", "numbers", "verdict", "drawn", "plotted")
    assert [getattr(bench, name) for name in shown] == [getattr(fresh, name) for name in shown]

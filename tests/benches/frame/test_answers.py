"""Answers of a bench: computed once, and the next step's before it is asked for."""

import asyncio
from concurrent.futures import ThreadPoolExecutor

import pytest
from fuelcircuits.benches.frame import answers

from tests.benches.frame.tank import TankBench


@pytest.fixture
def tank(monkeypatch: pytest.MonkeyPatch) -> TankBench:
    monkeypatch.setattr(answers, "QUIET", 0.02)
    made = TankBench()
    made.widget()
    made.filled = 0.3
    made.asked.clear()
    return made


def whole(tank: TankBench) -> list[float]:
    """Return the settings for which everything was worked out."""
    return [part for how, part in tank.asked if how == "whole"]


async def pressed(tank: TankBench, *parts: float, rest: float = 0.0) -> None:
    """Set one part after another, each followed by a rest."""
    for part in parts:
        tank.filled = part
        await asyncio.sleep(rest)


def looped(tank: TankBench, *parts: float, rest: float = 0.0) -> list[float]:
    """Press in a loop of its own, in a thread of its own: a browser's test may hold this one's."""
    with ThreadPoolExecutor(1) as apart:
        apart.submit(lambda: asyncio.run(pressed(tank, *parts, rest=rest))).result()
    return whole(tank)


def test_step_back_is_not_computed_again(tank: TankBench) -> None:
    for part in (0.31, 0.32, 0.31):
        tank.filled = part
    assert whole(tank) == [0.31, 0.32]


def test_of_many_answers_the_one_not_asked_for_longest_is_forgotten(tank: TankBench) -> None:
    steps = [0.4 + 0.001 * step for step in range(answers.KEPT - 1)]
    for part in (0.3, *steps, 0.3, 0.9, 0.3, steps[0]):
        tank.state({"filled": part})
    assert whole(tank) == [*steps, 0.9, steps[0]]


def test_pinned_state_is_not_computed_with_every_step(tank: TankBench) -> None:
    tank.pinned = tank.values()
    tank.filled = 0.31
    assert whole(tank) == [0.31]


def test_next_step_is_computed_in_the_rest_after_an_answer(tank: TankBench) -> None:
    assert looped(tank, 0.31, 0.32, rest=0.3) == pytest.approx([0.31, 0.32, 0.33])


def test_without_a_rest_nothing_is_computed_beforehand(tank: TankBench) -> None:
    assert looped(tank, 0.31, 0.32, 0.33) == []


def test_what_was_computed_beforehand_is_what_is_shown(tank: TankBench) -> None:
    looped(tank, 0.31, rest=0.3)
    tank.filled = 0.32
    fresh = TankBench(filled=0.32).widget()
    shown = ("chart", "readings", "numbers", "verdict", "drawn", "plotted")
    live = tank.widget()
    assert [getattr(live, name) for name in shown] == [getattr(fresh, name) for name in shown]

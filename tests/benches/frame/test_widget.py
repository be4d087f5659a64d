"""The live bench: what is set on either side is shown, once, and curves follow the rest."""

import asyncio
from collections.abc import Callable, Coroutine
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import pytest
from fuelcircuits.benches import bench_class
from fuelcircuits.benches.frame import widget
from fuelcircuits.errors import RangeError

from tests.benches.frame.tank import TankBench
from tests.benches.opening import STEMS


@pytest.fixture
def tank() -> TankBench:
    made = TankBench()
    made.widget()
    made.asked.clear()
    return made


def test_bench_that_is_shown_twice_is_one(tank: TankBench) -> None:
    assert tank.widget() is tank.widget()


def test_what_is_put_on_the_bench_is_shown(tank: TankBench) -> None:
    live: Any = tank.widget()
    tank.put(filled=0.25, shape="square", leak=True)
    assert (live.filled, live.shape, live.leak) == (0.25, "square", True)
    assert live.verdict == "It stands at 250.0 mm in square."
    tank.system = "US"
    assert live.system == "US"
    assert live.verdict == "It stands at 9.843 in in square."


def test_one_message_of_the_browser_is_put_and_computed_once(tank: TankBench) -> None:
    live = tank.widget()
    live.set_state({"filled": 0.25, "shape": "square", "system": "US"})
    assert (tank.filled, tank.shape, tank.system) == (0.25, "square", "US")
    assert tank.asked == [("whole", 0.25)]


def test_several_that_the_bench_is_given_are_computed_once(tank: TankBench) -> None:
    tank.put(filled=0.25, shape="square", system="US")
    assert tank.asked == [("whole", 0.25)]


def test_time_of_a_run_is_known_to_the_bench_and_computes_nothing(tank: TankBench) -> None:
    tank.widget().set_state({"at": 1.5})
    assert (tank.at, tank.asked) == (1.5, [])


def test_pinned_state_stays_while_the_controls_move(tank: TankBench) -> None:
    live = tank.widget()
    old = {"readings": live.readings, "chart": live.chart}
    assert live.before == {}
    tank.pinned = tank.values()
    tank.filled = 0.25
    assert live.before == old != {"readings": live.readings, "chart": live.chart}
    tank.pinned = {}
    assert live.before == {}


def test_pin_and_step_in_one_message_keep_the_state_that_was_seen(tank: TankBench) -> None:
    live = tank.widget()
    seen = live.readings
    live.set_state({"pinned": tank.values(), "filled": 0.25})
    assert live.before["readings"] == seen != live.readings


def test_seed_moves_the_needle(tank: TankBench) -> None:
    live = tank.widget()
    true = live.gauges[0]["value"]
    tank.seed = 5
    assert live.gauges[0]["value"] != true


def test_a_state_the_model_refuses_is_said_in_words(tank: TankBench) -> None:
    live, seen = tank.widget(), tank.widget().readings
    tank.put(filled=1.0, pressure=60e3)
    assert (live.alarm, live.readings) == (True, seen)
    assert "pressure of a full tank must be below" in live.verdict


def test_what_a_control_does_not_take_reaches_no_bench(tank: TankBench) -> None:
    with pytest.raises(RangeError, match="filled must be between 0 and 1, got 7"):
        tank.widget().set_state({"filled": 7})
    assert tank.filled == 0.5


def looped(act: Callable[[], Coroutine[Any, Any, None]]) -> None:
    """Run in a loop of its own, in a thread of its own: a browser's test may hold this one's."""
    with ThreadPoolExecutor(1) as apart:
        apart.submit(lambda: asyncio.run(act())).result()


def test_curves_follow_once_the_loop_has_been_free(tank: TankBench) -> None:
    async def act() -> None:
        live = tank.widget()
        live.set_state({"filled": 0.25})
        curve = live.chart["panels"][0]["curves"][1]
        assert (live.whole, curve["x"]) == (False, None)
        assert live.verdict == "It stands at 250.0 mm in round."
        await asyncio.sleep(2 * widget.MOMENT)
        assert (live.whole, live.chart["panels"][0]["curves"][1]["x"]) == (True, [0, 10000])

    looped(act)
    assert tank.asked == [("point", 0.25), ("whole", 0.25)]


def test_a_newer_question_drops_the_curves_of_an_older(tank: TankBench) -> None:
    async def act() -> None:
        for part in (0.25, 0.26, 0.27):
            tank.widget().set_state({"filled": part})
            await asyncio.sleep(0)
        await asyncio.sleep(2 * widget.MOMENT)

    looped(act)
    assert tank.asked == [("point", 0.25), ("point", 0.26), ("point", 0.27), ("whole", 0.27)]


def test_what_is_known_whole_is_shown_whole_at_once(tank: TankBench) -> None:
    tank.filled = 0.25
    tank.filled = 0.3
    tank.asked.clear()

    async def act() -> None:
        tank.widget().set_state({"filled": 0.25})
        assert tank.widget().whole

    looped(act)
    assert tank.asked == []


@pytest.mark.parametrize("stem", STEMS)
def test_no_input_takes_a_name_that_the_widget_needs(stem: str) -> None:
    assert set(bench_class(stem).inputs()) & set(widget.LiveBench.class_trait_names()) == set()


def test_a_second_setting_begins_where_the_first_stands_and_moves_by_itself(
    tank: TankBench,
) -> None:
    tank.filled = 0.25
    first: Any = tank.widget()
    first._handle_custom_msg({"twin": True}, [])
    second = first.twin
    assert second.about["title"] == f"{first.about['title']}, second setting"
    assert second.filled == 0.25
    second.set_state({"filled": 0.5})
    assert (tank.filled, first.filled, second.filled) == (0.25, 0.25, 0.5)
    first._handle_custom_msg({"twin": True}, [])
    assert first.twin is second
    first._handle_custom_msg({"twin": False}, [])
    assert first.twin is None

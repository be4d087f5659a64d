"""What every bench does: show, switch units, pin, put back, and refuse in words."""

from collections.abc import Mapping

import pytest
from fuelcircuits.benches.float_bowl.bench import FloatBowlBench
from fuelcircuits.benches.frame.measure import System
from fuelcircuits.benches.frame.state import State
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import RangeError

from tests.places import RIGS


@pytest.fixture
def bench() -> FloatBowlBench:
    return FloatBowlBench(read_rig(RIGS / "plover.toml"))


def test_a_change_of_a_control_changes_all_that_is_shown(bench: FloatBowlBench) -> None:
    shown = ("chart", "readings", "numbers", "verdict", "drawn", "plotted")
    before = [getattr(bench, name) for name in shown]
    bench.demand = 8e-3
    assert [
        name for name, old in zip(shown, before, strict=True) if getattr(bench, name) == old
    ] == []


def test_several_changes_in_one_message_are_computed_once(
    bench: FloatBowlBench, monkeypatch: pytest.MonkeyPatch
) -> None:
    calls: list[object] = []
    compute = bench.compute

    def count(values: Mapping[str, float], system: System) -> State:
        calls.append(values)
        return compute(values, system)

    monkeypatch.setattr(bench, "compute", count)
    bench.set_state({"demand": 5e-3, "fuel_pressure": 20e3, "system": "US"})
    assert len(calls) == 1


def test_units_switch_changes_words_but_not_values(bench: FloatBowlBench) -> None:
    values, readings, chart = bench.values(), bench.readings, bench.chart
    bench.system = "US"
    assert (bench.values(), bench.readings, bench.chart) == (values, readings, chart)
    assert "in below" in bench.verdict


def test_pinned_state_stays_while_the_controls_move(bench: FloatBowlBench) -> None:
    old = (bench.readings, bench.chart)
    bench.pinned = bench.values()
    bench.demand = 8e-3
    assert (bench.before["readings"], bench.before["chart"]) == old
    assert (bench.readings, bench.chart) != old
    bench.pinned = {}
    assert bench.before == {}


def test_nothing_is_pinned_at_first(bench: FloatBowlBench) -> None:
    assert bench.before == {}


def test_pin_and_step_in_one_message_keep_the_state_that_was_seen(bench: FloatBowlBench) -> None:
    seen = bench.readings
    bench.set_state({"pinned": bench.values(), "demand": 8e-3})
    assert bench.before["readings"] == seen != bench.readings


def test_a_state_the_model_refuses_is_said_in_words(
    bench: FloatBowlBench, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object) -> State:
        raise RangeError("float above floor must be positive, got -0.002 m")

    monkeypatch.setattr(bench, "compute", refuse)
    bench.demand = 5e-3
    assert bench.alarm
    assert "float above floor must be positive, got -0.002 m" in bench.verdict


def test_controls_start_at_the_card_and_reset_to_it(bench: FloatBowlBench) -> None:
    starts = {spec["name"]: spec["start"] for spec in bench.about["controls"]}
    assert starts == bench.values()
    assert starts["seat_bore"] == bench.card.seat_bore


def test_where_no_bench_can_run_the_figure_stands_in(bench: FloatBowlBench) -> None:
    shown, _ = bench._repr_mimebundle_()
    assert "application/vnd.jupyter.widget-view+json" in shown
    assert shown["image/svg+xml"] == bench.figure().svg
    assert shown["text/plain"] == bench.figure().alt

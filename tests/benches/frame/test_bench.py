"""What every bench does: take settings, answer in plain data, and refuse in words."""

import json
import subprocess
import sys
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import pytest
from fuelcircuits.benches.float_bowl.bench import FloatBowlBench
from fuelcircuits.benches.frame.choice import Switch
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import RangeError

from tests.benches.frame.tank import TankBench
from tests.benches.opening import MARCHED, STEMS
from tests.benches.opening import bench as opened
from tests.places import RIGS

SHOWN = ("chart", "readings", "numbers", "gauges", "verdict", "drawn", "plotted")
HEAVY = {"numpy", "pint", "matplotlib", "anywidget", "traitlets", "ipywidgets", "PIL", "resvg_py"}


@pytest.fixture
def bench() -> FloatBowlBench:
    return FloatBowlBench(read_rig(RIGS / "plover.toml"))


def test_a_change_of_a_control_changes_all_of_the_answer(bench: FloatBowlBench) -> None:
    before, after = (bench.answer({"demand": each}, "SI") for each in (3e-3, 8e-3))
    kept = [name for name in SHOWN if before[name] == after[name]]
    assert kept == ["gauges"]  # it has none


def test_answer_is_strict_json_and_leaves_the_bench_as_it_stands(bench: FloatBowlBench) -> None:
    values = bench.values()
    assert json.loads(json.dumps(bench.answer({"soaked": 0.4}, "US"), allow_nan=False))
    assert (bench.values(), bench.system) == (values, "SI")


def test_units_switch_changes_words_but_not_values(bench: FloatBowlBench) -> None:
    metric, shop = bench.answer({}, "SI"), bench.answer({}, "US")
    differ = [name for name in metric if metric[name] != shop[name]]
    assert differ == ["verdict", "drawn", "plotted"]
    assert "in below" in shop["verdict"]


def test_a_state_the_model_refuses_is_said_in_words() -> None:
    answer = TankBench().answer({"filled": 1.0, "pressure": 60e3}, "SI")
    assert answer["alarm"]
    assert "pressure of a full tank must be below 50000, got 60000" in answer["verdict"]


def test_answer_without_curves_lacks_their_points_and_nothing_else() -> None:
    tank = TankBench()
    first, whole = (tank.answer({}, "SI", curves=each) for each in (False, True))
    assert (first["whole"], whole["whole"]) == (False, True)
    *others, late = first["chart"]["panels"][0]["curves"]
    assert (late["label"], late["x"], late["y"]) == ("level", None, None)
    assert others == whole["chart"]["panels"][0]["curves"][:-1]
    differ = [name for name in first if first[name] != whole[name]]
    assert sorted(differ) == ["chart", "whole"]


@pytest.mark.parametrize("stem", STEMS)
def test_point_of_every_bench_lacks_points_of_curves_alone(stem: str) -> None:
    made = opened(stem)
    values = made.values()
    first, rest = made.point(values, "US"), made.compute(values, "US")
    assert first.chart.x == rest.chart.x
    for panel, whole in zip(first.chart.panels, rest.chart.panels, strict=True):
        for curve, drawn in zip(panel.curves, whole.curves, strict=True):
            assert replace(drawn, x=curve.x, y=curve.y) == curve
    assert first.told is (stem not in MARCHED)
    if first.told:
        for panel, whole in zip(first.chart.panels, rest.chart.panels, strict=True):
            assert replace(panel, curves=whole.curves) == whole
        assert replace(first, chart=rest.chart, plotted=rest.plotted) == rest


def test_seed_moves_the_gauges_alone() -> None:
    true, off = (TankBench().answer({}, "SI", seed=seed) for seed in (None, 5))
    assert [name for name in true if true[name] != off[name]] == ["gauges"]


def test_controls_start_at_the_card_and_reset_to_it(bench: FloatBowlBench) -> None:
    bench.seat_bore = 3e-3
    starts = {spec["name"]: spec["start"] for spec in bench.about()["controls"]}
    assert starts == FloatBowlBench(read_rig(RIGS / "plover.toml")).values()
    assert starts["seat_bore"] == bench.card.seat_bore


def test_bench_made_from_another_has_its_drawing_and_controls() -> None:
    class OwnBench(FloatBowlBench):
        extra = Switch("Lamp over the glass")

    made = OwnBench(read_rig(RIGS / "plover.toml"))
    assert made.drawing() == FloatBowlBench.drawing()
    assert list(made.values()) == [*FloatBowlBench.inputs(), "extra"]


def test_controls_of_one_bench_are_not_those_of_another() -> None:
    one, other = TankBench(filled=0.2), TankBench()
    one.leak = True
    assert (one.values(), other.values()) != (other.values(), one.values())
    assert (other.filled, other.leak) == (0.5, False)


def test_who_watches_hears_once_of_what_was_before() -> None:
    heard: list[Mapping[str, Any]] = []
    tank = TankBench()
    tank.watch(heard.append)
    tank.put(filled=0.7, system="US")
    tank.put(filled=0.7)
    assert [(each["filled"], each["system"]) for each in heard] == [(0.5, "SI")]


def test_nothing_is_set_if_one_of_several_is_refused() -> None:
    tank = TankBench()
    with pytest.raises(RangeError, match="system must be SI or US, got 'metric'"):
        tank.put(filled=0.7, system="metric")
    assert tank.filled == 0.5


def test_where_no_bench_can_run_the_figure_stands_in(bench: FloatBowlBench) -> None:
    shown, _ = bench._repr_mimebundle_()
    assert "application/vnd.jupyter.widget-view+json" in shown
    assert shown["image/svg+xml"] == bench.figure().svg
    assert shown["text/plain"] == bench.figure().alt


def test_bench_answers_without_a_library_beside_the_standard_one() -> None:
    code = (
        "import sys; from fuelcircuits.benches import open_bench\n"
        f"open_bench('exhaust').answer({{}}, 'US', 3); print(sorted({HEAVY!r} & set(sys.modules)))"
    )
    seen = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert seen.stdout.strip() == "[]"

"""The rooms of a bench: what is found stands below words and drawing, which read that alone."""

import ast
import subprocess
import sys
from collections.abc import Iterator
from importlib import import_module
from importlib.resources import files
from typing import Any

import pytest
from fuelcircuits.benches.frame.state import Curve, State
from fuelcircuits.benches.frame.widget import SHARED, LiveBench

from tests.benches.checks import ends
from tests.benches.opening import CARD, STEMS, bench

TWO_STAGE = ("bowl_vents", "low_speed", "off_idle", "high_speed", "power", "setting_up")
BARE = """
import sys
sys.modules.update(dict.fromkeys(["numpy", "pint", "anywidget", "traitlets", "matplotlib"]))
from fuelcircuits.benches import BENCHES, open_bench
from fuelcircuits.cards import read_rig
rig = read_rig(sys.argv[1])
for stem in BENCHES:
    bench = open_bench(stem, rig)
    print(stem, bench.answer(bench.values(), "SI")["whole"])
"""
"""Reads a card and answers every bench in a Python that has none but its own library."""


def imported(stem: str, room: str) -> Iterator[str]:
    """Yield what a module of a bench imports, by its full name."""
    source = (files("fuelcircuits.benches") / stem / f"{room}.py").read_text("utf-8")
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.ImportFrom):
            yield str(node.module)
        elif isinstance(node, ast.Import):
            yield from (each.name for each in node.names)


def leaves(tree: Any) -> Iterator[Any]:
    """Yield what stands in lists, rows and tables, down to the last of them."""
    if isinstance(tree, (list, tuple, dict)):
        for part in tree.values() if isinstance(tree, dict) else tree:
            yield from leaves(part)
    else:
        yield tree


def curves(state: State) -> list[Curve]:
    return [curve for panel in state.chart.panels for curve in panel.curves]


@pytest.mark.parametrize("stem", STEMS)
def test_no_control_has_a_name_that_the_live_bench_needs_itself(stem: str) -> None:
    assert {*bench(stem).inputs()} & {*dir(LiveBench), *SHARED} == set()


@pytest.mark.parametrize("stem", STEMS)
@pytest.mark.parametrize("room", ["words", "drawing"])
def test_words_and_drawing_compute_no_physics(stem: str, room: str) -> None:
    names = list(imported(stem, room))
    assert f"fuelcircuits.benches.{stem}.found" in names
    assert [name for name in names if name.startswith(("fuelcircuits.physics", "numpy"))] == []
    assert f"fuelcircuits.benches.{stem}.bench" not in names


@pytest.mark.parametrize("stem", STEMS)
def test_what_is_found_looks_at_no_other_room(stem: str) -> None:
    above = {f"fuelcircuits.benches.{stem}.{room}" for room in ("bench", "words", "drawing")}
    assert above.isdisjoint(imported(stem, "found"))


@pytest.mark.parametrize("stem", TWO_STAGE)
def test_what_is_found_is_plain_data(stem: str) -> None:
    made: Any = bench(stem)
    found = import_module(f"fuelcircuits.benches.{stem}.found")
    for work_out in (found.point, found.whole):
        kinds = {type(each) for each in leaves(work_out(made.card, made.values()))}
        assert kinds <= {str, bool, int, float, type(None)}


# The point shows all that the whole shows but the curves that cost, and what is told of these.
@pytest.mark.parametrize("stem", TWO_STAGE)
def test_a_point_is_the_whole_but_for_its_curves(stem: str) -> None:
    made = bench(stem)
    for values in [made.values(), *list(ends(made))[:2]]:
        point, whole = made.point(values, "SI"), made.compute(values, "SI")
        assert (point.readings, point.numbers) == (whole.readings, whole.numbers)
        assert (point.verdict, point.alarm, point.drawn) == (
            whole.verdict,
            whole.alarm,
            whole.drawn,
        )
        assert point.gauges == whole.gauges
        assert [each.dot for each in point.chart.panels] == [
            each.dot for each in whole.chart.panels
        ]
        assert whole.whole
        assert not point.whole
        for early, late in zip(curves(point), curves(whole), strict=True):
            assert early.x is None or early == late


def test_every_bench_answers_without_any_library() -> None:
    done = subprocess.run(
        [sys.executable, "-c", BARE, CARD], capture_output=True, text=True, check=False
    )
    assert done.stderr == ""
    assert done.stdout.split("\n")[:-1] == [f"{stem} True" for stem in STEMS]

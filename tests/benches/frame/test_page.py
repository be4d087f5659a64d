"""Pages of the benches: self-contained, small, and true to the model between the table's places."""

import base64
import re
import zlib
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.frame.page import main, page
from fuelcircuits.benches.frame.table import agrees
from fuelcircuits.benches.frame.tree import join, split

from tests.benches.opening import STEMS, bench, coarse, table

SAMPLES = 30


@cache
def drawn(stem: str, count: int) -> list[dict[str, Any]]:
    """Return settings at random, off the table's places unless a place is all there is.

    Of places a draw may bring one twice, and it stands there once.
    """
    random = np.random.default_rng(5)
    made, settings = bench(stem), list[dict[str, Any]]()
    for _ in range(count):
        setting = made.values()
        for axis in table(stem).axes:
            control = made.inputs()[axis.name]
            if axis.blends and isinstance(control, Control):
                setting[axis.name] = float(random.uniform(control.low, control.high))
            else:
                setting[axis.name] = axis.places[random.integers(len(axis.places))]
        settled = table(stem).settled(setting)
        settings += [] if settled in settings else [settled]
    return settings


@pytest.mark.parametrize("stem", STEMS)
def test_values_off_the_table_agree_with_the_model_to_a_hundredth(stem: str) -> None:
    wrong = []
    for setting in drawn(stem, SAMPLES):
        shown, true = table(stem).at(setting), bench(stem).told(setting, "SI")
        for line, true_line in zip(shown["readings"], true.readings, strict=True):
            if not agrees(line["value"], true_line):
                wrong.append(f"{line['label']}: {line['value']} for {true_line.value}")
    assert wrong == []


@pytest.mark.parametrize("stem", STEMS)
def test_most_settings_stay_as_they_are_asked_for(stem: str) -> None:
    made = table(stem)
    blending = [axis for axis in made.axes if axis.blends]
    off = [
        setting
        for setting in drawn(stem, SAMPLES)
        if any(setting[axis.name] not in axis.places for axis in blending)
    ]
    assert len(off) >= SAMPLES / 2 or not blending


@pytest.mark.parametrize("stem", STEMS)
def test_page_is_small(stem: str) -> None:
    assert 4 / 3 * len(table(stem).pack()) < 250e3


def test_every_bench_offers_one_to_four_controls_on_its_page() -> None:
    assert [stem for stem in STEMS if not 1 <= len(bench(stem).page_grid) <= 4] == []


def test_page_holds_everything_and_lets_nothing_in() -> None:
    text = page(coarse("gauges"))
    assert "default-src 'none'; style-src 'sha256-" in text
    assert "unsafe" not in text
    assert re.findall(r'(?:src|href)="(?!#)[^"]*"|@import|\bfetch\(|eval\(', text) == []


def test_table_travels_as_deflated_bytes_that_zlib_reads() -> None:
    found = re.search(r'id="table">([^<]+)<', page(coarse("gauges")))
    assert found
    assert b'"axes"' in zlib.decompress(base64.b64decode(found[1]))


@pytest.mark.parametrize(
    "tree",
    [
        {"a": [1, None, 2.5], "b": {"c": 3}, "d": "rises 2.50 g/s in 3 s", "e": None, "f": True},
        {"moments": [{"time": 0, "words": "E10 at -3.5 kPa"}], "none": []},
    ],
)
def test_a_tree_taken_apart_is_put_together_the_same(tree: Any) -> None:
    assert join(*split(tree)) == tree


def test_command_writes_the_pages_asked_for(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["--into", str(tmp_path / "pages"), "gauges"]) == 0
    assert [path.name for path in (tmp_path / "pages").iterdir()] == ["gauges.html"]
    assert re.fullmatch(r"gauges\.html: \d+ kB\n", capsys.readouterr().out)

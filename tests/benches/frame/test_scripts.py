"""The browser's pure functions, run by node, held to what Python says to the same questions."""

import base64
import json
import os
import re
import shutil
import subprocess
from collections.abc import Iterator
from itertools import pairwise, product
from math import isnan, nan
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest
from fuelcircuits.benches.frame import measure
from fuelcircuits.benches.frame.drawing import SET, fill, rules
from fuelcircuits.benches.frame.measure import System
from fuelcircuits.benches.frame.scripts import NOTEBOOK, PAGE, STATIC, bundle
from fuelcircuits.benches.frame.state import Reading
from fuelcircuits.benches.frame.table import Table, tabulate

from tests.benches.frame.law import LawBench
from tests.benches.opening import bench, coarse

SCRIPTED = Path(__file__).parent / "scripts"
VALUES = (0.0, -1e-9, 2.51e-3, -0.26, 1.0, 287.654, 101325.0, nan)
"""Of SI; none is half a step, which Python rounds to even and a browser away from nought."""
ASKED: tuple[tuple[System, bool, tuple[str, str] | None], ...] = (
    ("SI", True, None),
    ("SI", False, None),
    ("US", False, ("high", "low")),
)


def texts() -> Iterator[dict[str, Any]]:
    """Yield numbers in every measure of the frame, with the words for them."""
    kinds = [getattr(measure, name) for name in measure.__all__ if name.isupper()]
    for kind, value, (system, brief, ways) in product(kinds, VALUES, ASKED):
        line = Reading("", value, kind, None if isnan(value) else ways)
        yield {
            "measure": kind.wire(),
            "ways": line.ways,
            "value": None if isnan(value) else value,
            "system": system,
            "brief": brief,
            "text": line.text(system, brief),
        }


def drawing(stem: str) -> dict[str, Any]:
    """Return the rules of a bench's drawing, and what they set on paper."""
    made = bench(stem)
    numbers = made.state().numbers
    bare, paper = ElementTree.fromstring(made.drawing()), fill(made.drawing(), numbers)
    parts = []
    for part, filled in zip(bare.iter(), paper.iter(), strict=True):
        names = [name for name, _ in rules(part.get(SET, ""))]
        found = [[n, filled.text if n == "text" else filled.get(n)] for n in names]
        parts += [{"rule": part.get(SET), "set": found}] if names else []
    return {"drawing": stem, "numbers": dict(numbers), "parts": parts}


def settings(table: Table, start: dict[str, Any]) -> Iterator[dict[str, Any]]:
    """Yield settings on the table and between its places, that need no settling."""
    yield start
    for axis in table.axes:
        inner = (
            [0.6 * low + 0.4 * high for low, high in pairwise(axis.places)] if axis.blends else []
        )
        for place in (*axis.places, *inner):
            values = start | {axis.name: place}
            if table.settled(values) == values:
                yield values


def tabled(name: str, made: Any) -> dict[str, Any]:
    """Return a table as it travels, and what it holds at some settings."""
    table = tabulate(made)
    start = {axis.name: getattr(made, axis.name) for axis in table.axes}
    asked = []
    for values in settings(table, start):
        shown = table.at(values)
        asked.append({"values": values, "words": shown.pop("words"), "shown": shown})
    packed = base64.b64encode(table.pack()).decode()
    return {"name": name, "packed": packed, "settings": asked}


def run(*words: str, **environment: str) -> "subprocess.CompletedProcess[str]":
    """Run node with these words."""
    node = shutil.which("node")
    assert node, "node must be on this machine (Debian: apt-get install nodejs)"
    every = os.environ | environment
    return subprocess.run([node, *words], env=every, capture_output=True, text=True, check=False)


def test_scripts_find_what_python_finds(tmp_path: Path) -> None:
    cases = {
        "texts": list(texts()),
        "drawings": [drawing(stem) for stem in ("float_bowl", "gauges", "exhaust")],
        "tables": [tabled("law", LawBench()), tabled("gauges", coarse("gauges"))],
    }
    path = tmp_path / "cases.json"
    path.write_text(json.dumps(cases, allow_nan=False), encoding="utf-8")
    done = run("--test", *sorted(map(str, SCRIPTED.glob("*.test.mjs"))), CASES=str(path))
    assert done.returncode == 0, done.stdout


@pytest.mark.parametrize(
    ("names", "given"), [(NOTEBOOK, ["export default { render: renderSeats };"]), (PAGE, [])]
)
def test_modules_together_are_one_without_joints(
    names: tuple[str, ...], given: list[str], tmp_path: Path
) -> None:
    text = bundle(names)
    assert re.findall(r"^import\b", text, re.M) == []
    assert re.findall(r"^export .*", text, re.M) == given
    (tmp_path / "all.mjs").write_text(text, encoding="utf-8")
    assert run("--check", str(tmp_path / "all.mjs")).stderr == ""


def test_every_module_imports_from_those_before_it_alone() -> None:
    for names in (NOTEBOOK, PAGE):
        for at, name in enumerate(names):
            source = (STATIC / name).read_text("utf-8")
            joined = re.findall(r'^import .* from "\./(.*)";$', source, re.M)
            assert set(joined) <= set(names[:at])

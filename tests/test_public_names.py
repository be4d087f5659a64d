"""The names that notebooks may ask `fuelcircuits` for: these, no others, and nothing deeper."""

import json
import re
from collections.abc import Iterator
from pathlib import Path

import fuelcircuits
import pytest

from tests.places import COURSE_FOLDER

NAMES = [
    "AirPathBench",
    "AroundBench",
    "Atlas",
    "BowlVentsBench",
    "Car",
    "ChokeBench",
    "ColdStartBench",
    "DiagnosisBench",
    "DriveBench",
    "ExhaustBench",
    "FloatBowlBench",
    "Fuel",
    "GaugesBench",
    "HighSpeedBench",
    "HotSoakBench",
    "LowSpeedBench",
    "OffIdleBench",
    "OwnCar",
    "PowerBench",
    "PumpBench",
    "Q",
    "Rig",
    "SettingUpBench",
    "Weather",
    "begin",
    "diagnose",
    "drive",
    "example_car",
    "find",
    "fit",
    "fitting",
    "hand_over",
    "judged",
    "read_rig",
    "side_by_side",
    "taken",
    "what_if",
    "with_entries",
]
NOTEBOOKS = sorted(COURSE_FOLDER.glob("release/*/*.ipynb"))
FROM = re.compile(r"^\s*from (fuelcircuits[\w.]*) import ([^\n#]+)", re.MULTILINE)
WHOLE = re.compile(r"^\s*import (fuelcircuits\S*)", re.MULTILINE)


def code_of(notebook: Path) -> Iterator[str]:
    for cell in json.loads(notebook.read_text("utf-8"))["cells"]:
        if cell["cell_type"] == "code":
            yield "".join(cell["source"])


def test_the_public_names_are_these_in_order() -> None:
    assert fuelcircuits.__all__ == NAMES == dir(fuelcircuits)


@pytest.mark.parametrize("name", NAMES)
def test_every_public_name_is_there_and_bears_it(name: str) -> None:
    assert getattr(fuelcircuits, name).__name__ == name


def test_another_name_is_refused() -> None:
    with pytest.raises(AttributeError, match="no attribute 'Carburetor'"):
        fuelcircuits.Carburetor  # noqa: B018


@pytest.mark.parametrize("notebook", NOTEBOOKS, ids=lambda path: path.stem)
def test_a_notebook_asks_for_public_names_and_nothing_deeper(notebook: Path) -> None:
    code = "\n".join(code_of(notebook))
    assert {*WHOLE.findall(code)} == set()
    asked = FROM.findall(code)
    assert {home for home, _ in asked} == {"fuelcircuits"}
    assert {name.strip() for _, names in asked for name in names.split(",")} <= set(NAMES)

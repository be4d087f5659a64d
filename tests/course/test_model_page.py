"""The page on what the model knows: its errors are those that the tests allow."""

import csv
import re
from math import pi

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.solving import solve_for_angle

from course.site.maps import table
from tests.places import COURSE_FOLDER, RIGS
from tests.published.table import TABLE, Row

PAGE = (COURSE_FOLDER / "site" / "model.md").read_text("utf-8")
PARTS = {  # part: the beginnings of the topics that the table of check values has of it
    "air and fuel that just burn": ("1a stoich AFR",),
    "exhaust gas": ("1c", "1d", "1e", "1f", "1h"),
    "venturi, jet and mixture of a simple carburettor": (
        *("2 venturi", "2 fuel orifice", "2 simple jet", "2 engine to jet", "2 AFR", "2 critical"),
        *("2 air cleaner", "2 throat"),
    ),
    "air through nozzles": ("2 nozzle", "2 choked"),
    "a metering orifice in a pipe": ("4 orifice meter",),
    "a drilled jet or bleed at Reynolds number 20 to 3000": ("4 short-tube",),
    "the same, creeping, below Reynolds number 1": ("4 slow flow",),
    "vapour pressure of petrol": ("8 true vapour pressure",),
    "air with height": ("9 standard atmosphere",),
}


def checks(part: str) -> list[Row]:
    """Return the check values of a part."""
    with TABLE.open(newline="", encoding="utf-8") as lines:
        table = [Row(printed=line.pop("expected"), **line) for line in csv.DictReader(lines)]
    return [row for row in table if row.topic.startswith(PARTS[part])]


def said(part: str) -> float:
    found = re.search(rf"^\| {part} \|[^|]*\| ([\d.]+) % \|$", PAGE, flags=re.M)
    assert found, part
    return float(found[1]) / 100


@pytest.mark.parametrize("part", PARTS)
def test_a_worst_error_is_that_of_the_checks(part: str) -> None:
    worst = max(row.allowed / abs(row.expected) for row in checks(part))
    assert worst <= said(part) * (1 + 1e-9) < 1.5 * worst


def test_the_table_of_both_rigs_is_what_the_model_says() -> None:
    """Written by course.site.maps: run it again after a change of a rig or of the network."""
    assert "\n".join(table()) in PAGE


@pytest.mark.parametrize("name", ["dunlin", "plover"])
def test_how_lean_the_lightest_cruise_is(name: str) -> None:
    found = re.search(rf"{name} ([\d.]+) (?:to 1 )?at (\d+)", PAGE)
    assert found
    rig, speed = read_rig(RIGS / f"{name}.toml"), float(found[2]) * pi / 30
    light = 1.2e5 * rig.engine.displacement / (4 * pi)  # a mean pressure of 1.2 bar
    state = solve_for_angle(rig, Weather.at(), Fuel(), speed, torque=light)
    assert state.ratio == pytest.approx(float(found[1]), abs=0.06)

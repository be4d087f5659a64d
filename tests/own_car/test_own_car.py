"""The owner's notebook: built as committed, run from a clean kernel, and right about its car."""

import json
from pathlib import Path

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.own_car.leeway import with_entries
from fuelcircuits.own_car.outlook import what_if
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel, stoichiometric_ratio
from fuelmarks.authoring.own_car import NAME, own_car_notebook
from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.notebook import read, text_of
from fuelmarks.runner import Cell, Limits, Runner, RunResult

from tests.places import COURSE_FOLDER

COURSE = Course(COURSE_FOLDER)
RELEASE = COURSE.root / "release" / NAME / f"{NAME}.ipynb"
PLOVER = read_rig(COURSE.root / "rigs" / "plover.toml")
LIMITS = Limits(cell_seconds=240, notebook_seconds=400)


def test_the_committed_notebook_is_what_the_text_builds() -> None:
    assert json.loads(text_of(own_car_notebook(COURSE))) == json.loads(RELEASE.read_text())


def test_a_course_without_the_text_is_refused(tmp_path: Path) -> None:
    with pytest.raises(CourseError, match="course must hold the owner's notebook"):
        own_car_notebook(Course(tmp_path))


@pytest.fixture(scope="module")
def result(runner: Runner) -> RunResult:
    """The notebook, run as it stands."""
    cells = [
        Cell(cell.id, cell.source, False)
        for cell in read(RELEASE).cells
        if cell.cell_type == "code"
    ]
    return runner.run(cells, LIMITS)


def test_every_cell_runs(result: RunResult) -> None:
    assert [one for one in result.outcomes if one.status != "ok"] == []


def test_a_plan_comes_out(result: RunResult) -> None:
    said = "\n".join(one.text for one in result.outcomes)
    for words in (
        "healthy, by the card",
        "| outcome | how likely |",
        "**Several suspects fit**",
        "**Nothing has been read yet.**",
        "not yet two days",
        "give or take",
    ):
        assert words in said


# At the same air speeds the depression goes with the density and the fuel with its root, the air
# with the density itself: first principles.
def test_a_mountain_makes_full_load_richer_by_the_root_of_the_density() -> None:
    high, low = Weather.at(2000.0), Weather.at()
    found = what_if(PLOVER, other_weather=high)
    ratio = found.after["full-load-mixture"] / found.before["full-load-mixture"]
    density = (high.pressure / high.temperature) / (low.pressure / low.temperature)
    # The ring round the rod is slender: where less pulls, it passes a little less than the root.
    assert 0.0 < ratio - float(density) ** 0.5 < 0.025


def test_ethanol_leans_by_what_it_needs_less() -> None:
    found = what_if(PLOVER, other_fuel=Fuel(ethanol=0.1))
    ratio = found.after["cruise-mixture"] / found.before["cruise-mixture"]
    needs = float(stoichiometric_ratio(Fuel()) / stoichiometric_ratio(Fuel(ethanol=0.1)))
    assert 1.0 < ratio == pytest.approx(needs, rel=0.02)


def test_a_lean_full_load_is_warned_of() -> None:
    bore = {"high_speed.jet_bore": 0.85 * float(PLOVER.high_speed.jet_bore)}
    found = what_if(PLOVER, lambda rig: with_entries(rig, bore))
    assert "Caution" in found.warning
    assert "Caution" in repr(found)
    assert not what_if(PLOVER).warning

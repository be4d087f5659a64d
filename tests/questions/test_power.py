"""Unit 07: ring, step, spring and shim against the physics and a published test of engines."""

from dataclasses import replace
from math import pi, radians

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.circuits.power import Power, jet_area, rod_lift
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel, stoichiometric_ratio
from fuelcircuits.physics.network import solving as network
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.openings.orifice import ideal_flux
from fuelcircuits.physics.openings.plate import OPEN
from fuelmarks.questions import Exercise, Sheet, draw, load

from tests.places import COURSE_FOLDER
from tests.published.table import Row, rows

COURSE = COURSE_FOLDER
SET = load("07-power")
SHEETS = [draw(SET, seed) for seed in range(12)]
PLOVER = read_rig(COURSE / "rigs" / "plover.toml")
each_sheet = pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: f"seed-{sheet.seed}")
HILL = 2000 * 2 * pi / 60
OURS = {"main_jet": 1.56e-3, "lean_step": 0.93e-3, "rich_step": 0.59e-3}


def power(sheet: Sheet, shim: float = 0.0) -> Power:
    """Return a rod and spring with the sheet's dimensions, and a shim under the spring."""
    given = sheet.givens
    return Power(
        piston_bore=given["piston_bore"],
        spring_force=given["power_spring"] + shim * given["power_rate"],
        spring_rate=given["power_rate"],
        travel=given["rod_travel"],
        lean_step=given["lean_step"],
        middle_step=given["rich_step"],
        rich_step=given["rich_step"],
    )


def plover(**stuck: float) -> Rig:
    """Return plover with its rod stuck."""
    assert PLOVER.power is not None
    return replace(PLOVER, power=replace(PLOVER.power, **stuck))


def wide_open(rig: Rig) -> float:
    """Return the mixture with the throttle wide open on a hill."""
    return float(network.solve(rig, Weather.at(), Fuel(), HILL, OPEN).ratio)


@each_sheet
@pytest.mark.parametrize(("name", "step"), [("ring-down", "lean_step"), ("ring-up", "rich_step")])
def test_the_ring_is_that_of_the_physics(sheet: Sheet, name: str, step: str) -> None:
    area = jet_area(sheet.givens["main_jet"], sheet.givens[step])
    assert sheet.answers[name] == pytest.approx(float(area), rel=1e-9)


@each_sheet
def test_the_rod_lifts_and_arrives_where_the_sheet_says(sheet: Sheet) -> None:
    down, up = sheet.answers["lift-vacuum"], sheet.answers["full-up-vacuum"]
    assert rod_lift(power(sheet), down) == pytest.approx(0.0, abs=1e-9)
    assert rod_lift(power(sheet), up) == pytest.approx(1.0, abs=1e-9)
    assert 0 < rod_lift(power(sheet), (down + up) / 2) < 1


@each_sheet
def test_the_shim_lifts_the_rod_at_the_wanted_vacuum(sheet: Sheet) -> None:
    shimmed, wanted = power(sheet, sheet.answers["spring-shim"]), sheet.givens["wanted_vacuum"]
    assert rod_lift(shimmed, 1.01 * wanted) == 0
    assert rod_lift(shimmed, 0.99 * wanted) > 0


@each_sheet
def test_the_step_is_that_of_jets_at_one_depression(sheet: Sheet) -> None:
    given = sheet.givens
    areas = [float(jet_area(given["main_jet"], given[step])) for step in ("lean_step", "rich_step")]
    step = sheet.answers["mixture-step"] / given["rod_down_ratio"]
    assert step == pytest.approx(areas[0] / areas[1], rel=1e-9)


@each_sheet
def test_thin_air_is_that_of_the_simple_carburettor(sheet: Sheet) -> None:
    given = sheet.givens
    home, up = (ideal_flux(1e3, given[f"{place}_density"]) for place in ("home", "pass"))
    assert sheet.answers["thin-air"] == pytest.approx(given["home_ratio"] * up / home, rel=1e-9)


@pytest.mark.parametrize(
    ("row", "density"), list(zip(
        [case.values[0] for case in rows("9 altitude AFR (textbook atmosphere)")],
        [(14.0, 300.0, 5000.0), (14.7, 295.0, 4000.0)], strict=True,
    )),
)  # fmt: skip
def test_thin_air_gives_the_textbooks_ratio(row: Row, density: tuple[float, float, float]) -> None:
    # The books' atmosphere: 6.5 K colder each km, h = 19200 log10(1.013 / p).
    ratio, kelvin, height = density
    up = kelvin - 0.0065 * height
    pressure = 1.013 / 10 ** (height / 19200)
    given = {"home_ratio": ratio, "home_density": 1.013 / kelvin, "pass_density": pressure / up}
    assert SET["thin-air"].reference(given, {}) == row.approx


@pytest.mark.parametrize(
    ("row", "ratio"),
    [
        (rows("16 max-power fuel-air ratio, lower bound")[0].values[0], 14.3),
        (rows("16 max-power fuel-air ratio, upper bound")[0].values[0], 12.5),
    ],
)
def test_the_worked_example_turns_the_reports_bounds_round(row: Row, ratio: float) -> None:
    assert 1 / float(row.printed) == pytest.approx(ratio, abs=0.05)


def test_the_worked_examples_step_is_near_that_of_the_whole_carburettor() -> None:
    answers = {name: SET[name].reference(OURS, {}) for name in ("ring-down", "ring-up")}
    step = SET["mixture-step"].reference({"rod_down_ratio": 16.1}, answers)
    assert step == pytest.approx(12.1, abs=0.05)
    # More fuel makes well and nozzle resist more, which the short sum leaves out.
    assert wide_open(plover()) == pytest.approx(12.8, abs=0.05)
    assert wide_open(plover()) == pytest.approx(step, rel=0.06)


def test_the_bench_gives_the_ratio_the_worked_example_names() -> None:
    lean = wide_open(plover(most_lift=0.0))
    assert lean == pytest.approx(16.1, abs=0.1)
    assert lean / float(stoichiometric_ratio(Fuel())) == pytest.approx(1.10, abs=0.01)


def test_the_story_is_true_a_rod_stuck_down_is_lean_on_the_hill_and_right_on_the_level() -> None:
    light = (HILL, 0.35)
    level = [
        float(network.solve(rig, Weather.at(), Fuel(), *light).ratio)
        for rig in (plover(), plover(most_lift=0.0))
    ]
    assert level[0] == pytest.approx(level[1])
    assert wide_open(plover(most_lift=0.0)) > 15
    assert wide_open(plover()) < 13


def test_a_stronger_spring_enriches_light_running_beyond_the_force_of_the_vacuum() -> None:
    # First principles: the rod rises where the spring's force exceeds vacuum times area.
    light = (HILL, radians(24.84))
    found = [
        network.solve(plover(spring_force=force), Weather.at(), Fuel(), *light)
        for force in (2.16, 3.0, 3.7, 4.0)
    ]
    ratios = [float(each.ratio) for each in found]
    pull = float(found[0].manifold_vacuum) * pi / 4 * 10e-3**2
    assert 3.0 < pull < 3.5
    assert ratios[0] == pytest.approx(ratios[1], rel=1e-6)
    assert ratios[1] > 1.05 * ratios[2] > 1.05 * ratios[3]


@pytest.mark.parametrize(("lift", "inches"), [(0.0, 8.1), (1.0, 5.4)])
def test_the_job_sheet_names_the_cards_vacuum(lift: float, inches: float) -> None:
    assert PLOVER.power is not None
    assert float(rod_lift(PLOVER.power, inches * 3386.389)) == pytest.approx(lift, abs=0.02)


@pytest.mark.parametrize("exercise", SET.exercises, ids=lambda exercise: exercise.id)
def test_a_question_shows_only_givens_that_exist(exercise: Exercise) -> None:
    assert "{" not in SHEETS[0].ask(exercise.ask)

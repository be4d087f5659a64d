"""Unit 06: jet, lip and altitude against the physics and the textbooks' carburettors."""

from collections.abc import Mapping
from dataclasses import replace
from itertools import pairwise
from math import pi, radians, sin, sqrt

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.circuits.needle_valve import seat_force
from fuelcircuits.physics.engine.simple_carburettor import (
    air_fuel_ratio,
    bore_of,
    depression,
    jet_area,
    jet_drop,
    ratio_at_density,
    starting_velocity,
)
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network import solving as network
from fuelcircuits.physics.network.rig import Rig
from fuelmarks.authoring.checker import faults, unknown_outcomes
from fuelmarks.questions import Exercise, Sheet, draw, load

from tests.places import COURSE_FOLDER
from tests.published.table import Row, rows

COURSE = COURSE_FOLDER
SET = load("06-high-speed")
SHEETS = [draw(SET, seed) for seed in range(12)]
PLOVER = read_rig(COURSE / "rigs" / "plover.toml")
each_sheet = pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: f"seed-{sheet.seed}")


def lip_of(given: Mapping[str, float]) -> float:
    """Return the height of a sloping nozzle's mouth over the fuel [m]."""
    return given["nozzle_length"] * sin(given["nozzle_slope"]) - given["entry_depth"]


def ratio(sheet: Sheet, drop: float, jet_bore: float) -> float:
    """Return the simple carburettor's ratio with the sheet's lip and a throat that suits it."""
    given = sheet.givens
    wide = given["barrel_air"] / sqrt(2 * given["throat_density"] * given["main_depression"])
    found = air_fuel_ratio(
        wide,
        pi / 4 * jet_bore**2,
        drop,
        (given["throat_density"], given["main_density"]),
        (1.0, given["jet_coefficient"]),
        lip=lip_of(given),
    )
    return float(found)


@each_sheet
def test_the_jet_is_that_of_the_simple_carburettor(sheet: Sheet) -> None:
    # The question leaves the lip out, which makes the jet at most 1 % smaller.
    given, fuel = sheet.givens, sheet.answers["main-fuel"]
    area = jet_area(
        fuel,
        given["main_depression"],
        given["main_density"],
        given["jet_coefficient"],
        lip=lip_of(given),
    )
    assert sheet.answers["jet-bore"] == pytest.approx(float(bore_of(area)), rel=0.01)


@each_sheet
def test_a_jet_without_a_lip_passes_the_fuel_asked_for(sheet: Sheet) -> None:
    given, answers = sheet.givens, sheet.answers
    area = pi / 4 * answers["jet-bore"] ** 2
    drop = jet_drop(answers["main-fuel"], area, given["main_density"], given["jet_coefficient"])
    assert float(drop) == pytest.approx(given["main_depression"], rel=1e-9)


@each_sheet
def test_the_lip_takes_what_hydrostatics_says(sheet: Sheet) -> None:
    given = sheet.givens
    head = jet_drop(0.0, 1e-6, given["main_density"], 1.0, lip_of(given))
    assert sheet.answers["lip-head"] == pytest.approx(float(head), rel=1e-3)


@each_sheet
def test_fuel_starts_at_the_speed_of_the_physics(sheet: Sheet) -> None:
    given = sheet.givens
    speed = starting_velocity(lip_of(given), given["main_density"], given["throat_density"])
    assert sheet.answers["starting-speed"] == pytest.approx(float(speed), rel=1e-3)


@each_sheet
def test_a_small_flow_is_leaner_as_in_the_simple_carburettor(sheet: Sheet) -> None:
    given, bore = sheet.givens, sheet.answers["jet-bore"]
    leaner = ratio(sheet, given["small_depression"], bore)
    leaner /= ratio(sheet, given["main_depression"], bore)
    found = sheet.answers["small-flow-ratio"] / given["wanted_ratio"]
    assert found == pytest.approx(leaner, rel=1e-3)


@each_sheet
def test_the_mountain_jet_keeps_the_ratio(sheet: Sheet) -> None:
    given, answers = sheet.givens, sheet.answers
    thin = given["mountain_density"] / given["valley_density"]
    fuel = (answers["mountain-jet"] / answers["jet-bore"]) ** 2
    assert float(ratio_at_density(1.0, thin)) / fuel == pytest.approx(1.0, rel=1e-9)


@each_sheet
def test_the_needle_is_pushed_as_the_physics_says(sheet: Sheet) -> None:
    force = seat_force(sheet.givens["pump_pressure"], sheet.givens["needle_seat"])
    assert sheet.answers["seat-force"] == pytest.approx(float(force), rel=1e-9)


@pytest.mark.parametrize("row", rows("2 fuel orifice", "740"))
def test_the_jet_formula_gives_the_textbooks_jet(row: Row) -> None:
    # Mathur and Sharma, example 11.2: 0.45 kg/min of fuel, three quarters of the depression
    air = {"wanted_ratio": 1.0, "barrel_air": 0.45 / 60, "main_density": 740.0}
    ideal = (92 / 0.8) ** 2 / (2 * 1005 * 300)
    drop = 0.75 * 1.013e5 * (1 - (1 - ideal) ** 3.5)
    given = air | {"main_depression": drop, "jet_coefficient": 0.6}
    found = SET["jet-bore"].reference(given, {"main-fuel": SET["main-fuel"].reference(given, {})})
    assert found * 1000 == row.approx


@pytest.mark.parametrize("row", rows("2 critical air velocity to start fuel"))
def test_the_start_is_that_of_the_worked_example(row: Row) -> None:
    given = {"main_density": 750.0, "throat_density": 1.2}
    given |= {"nozzle_length": 0.012, "nozzle_slope": pi / 6, "entry_depth": 0.001}  # 5 mm
    head = SET["lip-head"].reference(given, {})
    assert SET["starting-speed"].reference(given, {"lip-head": head}) == row.approx


@pytest.mark.parametrize(
    ("row", "lip"),
    [
        (rows("2 AFR without lip", "throat 20")[0].values[0], 0.0),
        (rows("2 AFR with lip", "same")[0].values[0], 750 * 9.81 * 0.005),
    ],
)
def test_the_worked_example_gives_the_books_ratio(row: Row, lip: float) -> None:
    bare = 0.85 / 0.66 * (20 / 1.25) ** 2 * sqrt(1.2 / 750)
    assert bare * sqrt(7e3 / (7e3 - lip)) == row.approx


def test_the_gap_gives_the_ratio_the_text_names() -> None:
    head = 750 * 9.81 * 0.005
    bare = 0.85 / 0.66 * (20 / 1.25) ** 2 * sqrt(1.2 / 750)
    assert bare * sqrt(200 / (200 - head)) == pytest.approx(14.6, abs=0.05)
    speed = float(starting_velocity(0.005, 750.0, 1.2))
    assert float(depression(speed * 1.2, 1.0, 1.2)) == pytest.approx(head, rel=1e-3)


def part_load(rig: Rig, altitude: float = 0.0) -> list[float]:
    """Return the mixture where the main nozzle feeds and the power rod is still down."""
    states = network.sweep(rig, Weather.at(altitude), Fuel(), count=25)
    return [state.ratio for state in states[7:10]]


def test_the_story_is_true_a_blocked_bleed_makes_the_mixture_richer_with_flow() -> None:
    assert PLOVER.high_speed is not None
    blocked = replace(PLOVER, high_speed=replace(PLOVER.high_speed, air_bleed_bore=0.4e-3))
    sound, rich = part_load(PLOVER), part_load(blocked)
    assert all(wet < dry for wet, dry in zip(rich, sound, strict=True))
    assert all(before > after for before, after in pairwise(rich))
    assert all(before < after + 0.1 for before, after in pairwise(sound))


def test_the_story_is_true_the_pass_makes_it_richer_still() -> None:
    pairs = zip(part_load(PLOVER, 2000.0), part_load(PLOVER), strict=True)
    assert all(high < low - 0.5 for high, low in pairs)


def test_the_idle_lowers_the_well_so_that_the_nozzle_begins_later_than_its_lip_suggests() -> None:
    # First principles: what passes the main jet to the idle leaves the well below the bowl.
    assert PLOVER.high_speed is not None
    head = float(Fuel().petrol_density) * 9.81 * float(PLOVER.high_speed.lip)
    for turns, degrees in ((1140.0, 15.0), (1270.0, 16.0)):
        found = network.solve(PLOVER, Weather.at(), Fuel(), turns * 2 * pi / 60, radians(degrees))
        assert found.well_drop[0] > 15.0
        assert abs(found.flows.nozzle.fuel[0]) < 1e-9
        assert found.booster_depression[0] > head


@pytest.mark.parametrize("exercise", SET.exercises, ids=lambda exercise: exercise.id)
def test_a_question_shows_only_givens_that_exist(exercise: Exercise) -> None:
    assert "{" not in SHEETS[0].ask(exercise.ask)


def test_every_sheet_can_be_marked() -> None:
    assert list(faults(SET, range(200))) == []


def test_every_outcome_is_explained() -> None:
    assert unknown_outcomes(SET, COURSE / "outcomes.toml") == set()

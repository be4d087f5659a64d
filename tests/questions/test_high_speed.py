"""Unit 06: jet, lip and altitude against the physics and the textbooks' carburettors."""

from collections.abc import Mapping
from dataclasses import replace
from itertools import pairwise
from math import pi, radians, sin, sqrt

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.circuits.needle_valve import seat_force
from fuelcircuits.physics.engine.venturi import depression
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network import solving as network
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.openings.orifice import ideal_flux
from fuelmarks.questions import Exercise, Sheet, draw, load

from tests.flow_stand import on_flow_stand
from tests.places import COURSE_FOLDER
from tests.published.table import Row, rows

COURSE = COURSE_FOLDER
SET = load("06-high-speed")
SHEETS = [draw(SET, seed) for seed in range(12)]
PLOVER = read_rig(COURSE / "rigs" / "plover.toml")
GRAVITY = 9.80665  # m/s2; the questions take 9.81
each_sheet = pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: f"seed-{sheet.seed}")


def lip_of(given: Mapping[str, float]) -> float:
    """Return the height of a sloping nozzle's mouth over the fuel [m]."""
    return given["nozzle_length"] * sin(given["nozzle_slope"]) - given["entry_depth"]


def head_of(given: Mapping[str, float]) -> float:
    """Return the depression that lifts the fuel over the lip [Pa]."""
    return GRAVITY * given["main_density"] * lip_of(given)


def jet(given: Mapping[str, float], fuel: float, drop: float) -> float:
    """Return the bore of the jet that passes a fuel flow at a depression behind it [m]."""
    flux = given["jet_coefficient"] * ideal_flux(drop, given["main_density"])
    return sqrt(4 / pi * fuel / flux)


def ratio(given: Mapping[str, float], drop: float) -> float:
    """Return the simple carburettor's ratio with the sheet's lip, throat and jet of one size."""
    air = ideal_flux(drop, given["throat_density"])
    return air / ideal_flux(drop - head_of(given), given["main_density"])


@each_sheet
def test_the_jet_is_that_of_the_simple_carburettor(sheet: Sheet) -> None:
    # The question leaves the lip out, which makes the jet at most 1 % smaller.
    given, fuel = sheet.givens, sheet.answers["main-fuel"]
    found = jet(given, fuel, given["main_depression"] - head_of(given))
    assert sheet.answers["jet-bore"] == pytest.approx(found, rel=0.01)


@each_sheet
def test_a_jet_without_a_lip_passes_the_fuel_asked_for(sheet: Sheet) -> None:
    given, answers = sheet.givens, sheet.answers
    found = jet(given, answers["main-fuel"], given["main_depression"])
    assert answers["jet-bore"] == pytest.approx(found, rel=1e-9)


@each_sheet
def test_the_lip_takes_what_hydrostatics_says(sheet: Sheet) -> None:
    assert sheet.answers["lip-head"] == pytest.approx(head_of(sheet.givens), rel=1e-3)


@each_sheet
def test_fuel_starts_at_the_speed_of_the_physics(sheet: Sheet) -> None:
    given = sheet.givens
    flux = given["throat_density"] * sheet.answers["starting-speed"]
    found = depression(flux, 1.0, given["throat_density"])
    assert found == pytest.approx(head_of(given), rel=2e-3)


@each_sheet
def test_a_small_flow_is_leaner_as_in_the_simple_carburettor(sheet: Sheet) -> None:
    given = sheet.givens
    leaner = ratio(given, given["small_depression"]) / ratio(given, given["main_depression"])
    found = sheet.answers["small-flow-ratio"] / given["wanted_ratio"]
    assert found == pytest.approx(leaner, rel=1e-3)


@each_sheet
def test_the_mountain_jet_keeps_the_ratio(sheet: Sheet) -> None:
    given, answers = sheet.givens, sheet.answers
    low, high = (ideal_flux(1e3, given[f"{place}_density"]) for place in ("valley", "mountain"))
    fuel = (answers["mountain-jet"] / answers["jet-bore"]) ** 2
    assert high / low == pytest.approx(fuel, rel=1e-9)


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


def part_load(rig: Rig, altitude: float = 0.0) -> list[float]:
    """Return the mixture where the main nozzle feeds and the power rod is still down."""
    curve = on_flow_stand(rig, Weather.at(altitude), Fuel(), count=25)
    return [state.ratio for state in curve[7:10]]


def test_the_story_is_true_a_blocked_bleed_makes_the_mixture_richer_with_flow() -> None:
    assert PLOVER.high_speed is not None
    blocked = replace(PLOVER, high_speed=replace(PLOVER.high_speed, air_bleed_bore=0.4e-3))
    sound, rich = part_load(PLOVER), part_load(blocked)
    assert all(one < other for one, other in zip(rich, sound, strict=True))
    assert all(after < before for before, after in pairwise(rich))
    assert all(after - before > -0.1 for before, after in pairwise(sound))


def test_the_story_is_true_the_pass_makes_it_richer_still() -> None:
    pairs = zip(part_load(PLOVER, 2000.0), part_load(PLOVER), strict=True)
    assert all(high < low - 0.5 for high, low in pairs)


def test_the_idle_lowers_the_well_so_that_the_nozzle_begins_later_than_its_lip_suggests() -> None:
    # First principles: what passes the main jet to the idle leaves the well below the bowl.
    assert PLOVER.high_speed is not None
    head = float(Fuel().petrol_density) * 9.81 * float(PLOVER.high_speed.lip)
    places = [(1140.0, 15.0), (1270.0, 16.0)]
    found = [
        network.solve(PLOVER, Weather.at(), Fuel(), speed * 2 * pi / 60, radians(angle))
        for speed, angle in places
    ]
    assert all(state.pressures.bowl - state.pressures.well[0] > 15.0 for state in found)
    assert all(abs(state.flows.nozzle.fuel[0]) < 1e-9 for state in found)
    assert all(state.booster_depression[0] > head for state in found)


@pytest.mark.parametrize("exercise", SET.exercises, ids=lambda exercise: exercise.id)
def test_a_question_shows_only_givens_that_exist(exercise: Exercise) -> None:
    assert "{" not in SHEETS[0].ask(exercise.ask)

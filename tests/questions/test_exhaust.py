"""Unit 10's references against a textbook, the exhaust's physics and the analyser's."""

import re

import numpy as np
import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.engine.torque import consumption_factor, torque_factor
from fuelcircuits.physics.matter.analyser import lambda_brettschneider, reading
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.blend import DENSITY, Fuel
from fuelcircuits.physics.matter.stoichiometry import (
    CARBON_MASS,
    HYDROGEN_MASS,
    stoichiometric_ratio,
    stoichiometric_ratio_of,
)
from fuelcircuits.physics.network.solving import curb_idle
from fuelcircuits.physics.numerics.interpolation import linspace
from fuelmarks.course.course import Course, Trainee
from fuelmarks.paper.printing import handout_page
from fuelmarks.questions import Sheet, draw, load

from tests.places import COURSE_FOLDER
from tests.published.table import Row, rows

UNIT = "10-exhaust"
SET = load(UNIT)
COURSE = COURSE_FOLDER
TEXT = (COURSE / "units" / UNIT / "unit.md").read_text(encoding="utf-8")
SHEETS = [draw(SET, seed) for seed in range(12)]
HYDROGEN, SPREAD = 1.87, 0.03  # what the text says of its table
METHOD = SET["blend-ratio"].method
assert METHOD
CONSTANTS = {name: each.value for name, each in METHOD.constants.items()}
PETROL_RATIO = CONSTANTS["petrol_ratio"]
TABLE = {0.90: CONSTANTS["rich_co"], 0.95: CONSTANTS["lean_co"]}

each_sheet = pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: f"seed-{sheet.seed}")


@pytest.mark.parametrize("row", rows("1a stoich AFR", "C6H14"))
def test_air_for_hexane_is_the_textbooks(row: Row) -> None:
    assert SET["just-right-ratio"].reference({"carbon": 72 / 86}, {}) == row.approx


@pytest.mark.parametrize("row", rows("1c lean exhaust balance"))
def test_a_lean_exhaust_is_the_textbooks(row: Row) -> None:
    # Six parts of carbon dioxide to one of oxygen; 16 atoms of hydrogen to 84/12 of carbon.
    gas = {"co2_reading": 6.0, "co_reading": 0.0, "o2_reading": 1.0, "hydrogen_atoms": 16 / 7}
    lean = SET["gas-lambda"].reference(gas, {})
    air = lean * float(stoichiometric_ratio_of(16 / 7))
    expected = row.expected if row.unit == "kg/kg" else 1 + row.expected / 100
    found = air if row.unit == "kg/kg" else lean
    assert found == pytest.approx(expected, rel=0.006)  # the book rounds masses and percent


@each_sheet
def test_air_for_a_fuel_is_near_that_of_the_physics(sheet: Sheet) -> None:
    carbon = sheet.givens["carbon"]
    atoms = (1 - carbon) / HYDROGEN_MASS / (carbon / CARBON_MASS)
    exact = float(stoichiometric_ratio_of(atoms))
    assert sheet.answers["just-right-ratio"] == pytest.approx(exact, rel=0.007)  # round masses


@pytest.mark.parametrize("row", rows("1e Brettschneider lambda x AFRst"))
def test_lambda_of_a_published_exhaust(row: Row) -> None:
    gas = {"co2_reading": 7.5, "co_reading": 1.0, "o2_reading": 9.4}
    found = SET["gas-lambda"].reference({**gas, "hydrogen_atoms": 2.053}, {})
    assert found * 14.858 == row.approx


@each_sheet
def test_lambda_is_that_of_the_physics(sheet: Sheet) -> None:
    given = sheet.givens
    gas = (given["co2_reading"], given["co_reading"], given["o2_reading"], 0.0)
    exact = float(lambda_brettschneider(*gas, given["hydrogen_atoms"]))
    assert sheet.answers["gas-lambda"] == pytest.approx(exact, rel=1e-12)


@each_sheet
def test_the_gas_drawn_is_one_an_idling_engine_could_make(sheet: Sheet) -> None:
    given = sheet.givens
    made = reading(sheet.answers["gas-lambda"], given["hydrogen_atoms"], spread=0.1)
    assert given["co2_reading"] == pytest.approx(float(made.co2), abs=0.01)
    assert given["co_reading"] == pytest.approx(float(made.co), abs=0.006)
    assert given["o2_reading"] == pytest.approx(float(made.o2), abs=0.003)


@each_sheet
def test_lambda_at_cruise_gives_that_monoxide(sheet: Sheet) -> None:
    made = reading(sheet.answers["cruise-lambda"], HYDROGEN, spread=SPREAD)
    assert float(made.co) == pytest.approx(sheet.givens["cruise_co"], abs=0.0015)


@each_sheet
def test_air_for_a_blend_is_that_of_the_physics(sheet: Sheet) -> None:
    fuel = Fuel(ethanol=sheet.givens["ethanol"], petrol_density=sheet.givens["petrol_density"])
    exact = float(stoichiometric_ratio(fuel))
    assert sheet.answers["blend-ratio"] == pytest.approx(exact, rel=0.002)
    assert pytest.approx(DENSITY.ethanol, abs=1) == CONSTANTS["ethanol_density"]


@each_sheet
def test_a_blend_is_leaner_by_what_it_needs_less(sheet: Sheet) -> None:
    on_petrol = sheet.givens["set_ratio"] / PETROL_RATIO
    leaner = sheet.answers["blend-lambda"] / on_petrol
    assert leaner == pytest.approx(PETROL_RATIO / sheet.answers["blend-ratio"])
    assert leaner > 1


@each_sheet
def test_fuel_for_work_adds_up_over_an_hour(sheet: Sheet) -> None:
    given = sheet.givens
    work = given["torque"] * 2 * np.pi * given["test_speed"] * 3600  # J in an hour
    burnt = given["fuel_flow"] * 3600
    assert sheet.answers["fuel-for-work"] * work == pytest.approx(burnt)


@pytest.mark.parametrize("row", rows("9 altitude AFR (textbook atmosphere)"))
def test_thin_air_follows_the_textbooks_root(row: Row) -> None:
    # Both books: t falls by 0.0065 a metre, h = 19200 log10(1.013 / p), ratio by root of density.
    ratio, celsius = row.number("AFR"), row.number("at")
    height = float(re.findall(r"(\d+) m;", row.inputs)[0])
    warm, cold = celsius + 273, celsius - 0.0065 * height + 273
    given = {
        "valley_ratio": ratio,
        "valley_density": 1.013 / warm,
        "pass_density": 1.013 / 10 ** (height / 19200) / cold,
    }
    assert SET["thin-air"].reference(given, {}) == row.approx


def test_the_table_in_the_text_is_that_of_the_physics() -> None:
    lines = re.findall(r"^\| ([\d.]+ \| [\d.]+ .*) \|$", TEXT, flags=re.M)
    table = [[float(cell) for cell in line.split("|")] for line in lines]
    least = min(consumption_factor(mixture) for mixture in linspace(0.9, 1.2, 301))
    for mixture, *percents, torque, cost in table:
        gas = reading(mixture, HYDROGEN, spread=SPREAD)
        assert percents == pytest.approx([100 * part for part in gas[:3]], abs=0.051)
        assert torque == pytest.approx(torque_factor(mixture), abs=0.0051)
        assert cost == pytest.approx(consumption_factor(mixture) / least, abs=0.0051)
    assert {row[0]: row[2] / 100 for row in table if row[0] in TABLE} == pytest.approx(TABLE)


def test_false_air_reads_lean_and_keeps_monoxide_to_dioxide() -> None:
    clean, leaky = (reading(0.95, HYDROGEN, spread=SPREAD, false_air=air) for air in (0.0, 0.2))
    shown = [lambda_brettschneider(gas.co2, gas.co, gas.o2, gas.hc, 1.87) for gas in (clean, leaky)]
    assert shown[1] > shown[0] + 0.1
    assert leaky.co / leaky.co2 == pytest.approx(clean.co / clean.co2)


def test_the_job_sheets_readings_are_those_of_the_idling_rig() -> None:
    state = curb_idle(read_rig(COURSE / "rigs/plover.toml"), Weather.at(), Fuel())
    gas = reading(state.mixture, HYDROGEN, spread=0.06)
    assert float(state.mixture) == pytest.approx(0.93, abs=0.005)
    assert float(state.manifold_vacuum) == pytest.approx(67e3, abs=500)
    assert [float(share) for share in gas[:3]] == pytest.approx([0.134, 0.027, 0.001], abs=0.0005)


def test_the_handout_shows_a_bench_that_needs_no_rig() -> None:
    page = handout_page(Course(COURSE), UNIT, Trainee("ada"))
    assert "A bar shows 13.9 parts of air" in page


def test_a_canister_that_keeps_a_share_settles_where_a_day_brings_what_a_drive_takes() -> None:
    # A geometric row: with half kept, three days hold 1, 1.5 and 1.75 times what a day brings.
    given = {"parked_vapour": 12e-3, "purged": 0.5}
    assert SET["full-canister"].reference(given, {}) == pytest.approx(1.75 * 12e-3)

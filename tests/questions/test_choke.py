"""Unit 09's references against the physics of coil, plate, pull-off, cold fuel and timer."""

import re
from dataclasses import replace
from math import cos, degrees, pi, sqrt

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.circuits.bimetal import flexivity
from fuelcircuits.physics.circuits.choke import Choke, coil_step, coil_torque, pull_off, rest_angle
from fuelcircuits.physics.circuits.choke_plate import plate_angle, plate_torque
from fuelcircuits.physics.circuits.cold_start import timer_on
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.evaporation import evaporated_share
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.numerics.root import root
from fuelmarks.questions import Sheet, draw, load
from fuelmarks.questions.frame.drawing import to_si

from tests.places import COURSE_FOLDER

COURSE = COURSE_FOLDER
UNIT = "09-choke"
TEXT = (COURSE / "units" / UNIT / "unit.md").read_text(encoding="utf-8")
DUNLIN = read_rig(COURSE / "rigs/dunlin.toml")
SET = load(UNIT)
SHEETS = [draw(SET, seed) for seed in range(12)]
SEA_LEVEL = 101_325.0
TEMPERATURES = (-20.0, -15.0, -10.0, -5.0, 0.0, 5.0)  # degC, of the table in the text
SHARES = next(given.values for given in SET.givens if given.name == "vapour_share")

each_sheet = pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: f"seed-{sheet.seed}")


def choke_of(sheet: Sheet) -> Choke:
    """Return the rig's choke with the sheet's dimensions."""
    given = sheet.givens
    return replace(
        DUNLIN.choke,
        coil_length=given["coil_length"],
        coil_width=given["coil_width"],
        coil_thickness=given["coil_thickness"],
        flexivity=given["flexivity"],
        modulus=given["coil_modulus"],
        set_temperature=given["set_temperature"],
        plate_offset=given["plate_offset"],
        pull_off_bore=given["diaphragm"],
        pull_off_force=given["preload"],
        pull_off_rate=given["spring_rate"],
        pull_off_stroke=given["full_stroke"],
    )


@each_sheet
def test_the_coil_turns_and_presses_as_the_physics_says(sheet: Sheet) -> None:
    choke, cold = choke_of(sheet), sheet.givens["morning"]
    assert -float(rest_angle(choke, cold, 0.0)) == pytest.approx(sheet.answers["coil-turn"])
    torque = -float(coil_torque(choke, cold, 0.2, 0.2))
    assert torque == pytest.approx(sheet.answers["coil-torque"])


@each_sheet
def test_the_opening_pressure_balances_the_coil_in_the_physics(sheet: Sheet) -> None:
    path, weather = DUNLIN.air_path, Weather.at()
    choke, closed = choke_of(sheet), path.choke_closed_angle
    bore = sqrt(4 / pi * sheet.givens["plate_area"] * cos(closed))
    path = replace(path, horn_bore=bore)
    drop = plate_torque(choke, path, weather, 1e-3, closed) / (
        sheet.givens["plate_area"] * choke.plate_offset
    )
    flow = 1e-3 * sqrt(sheet.answers["opening-pressure"] / drop)
    just, more = (
        plate_angle(choke, path, weather, sheet.givens["morning"], flow * share)
        for share in (0.999, 1.05)
    )
    assert just == pytest.approx(closed, abs=1e-6)
    assert more > closed + 1e-4


@each_sheet
def test_the_pull_off_is_just_at_its_stop(sheet: Sheet) -> None:
    choke, vacuum = choke_of(sheet), sheet.answers["pull-off-vacuum"]
    assert float(pull_off(choke, vacuum, 0.2)) == pytest.approx(choke.pull_off_angle)
    assert float(pull_off(choke, 0.99 * vacuum, 0.2)) < choke.pull_off_angle - 1e-4


def to_deliver(celsius: float) -> float:
    """Return the air-fuel ratio of which 13 parts of air to one of vapour come."""

    def surplus(ratio: float) -> float:
        return 13.0 * evaporated_share(Fuel(), to_si(celsius, "degC"), SEA_LEVEL, ratio) - ratio

    return root(surplus, 0.1, 13.0, name="air-fuel ratio")


def test_the_shares_are_those_of_the_physics() -> None:
    for celsius, share in zip(TEMPERATURES, SHARES, strict=True):
        found = 100 * to_deliver(celsius) / 13.0
        assert found == pytest.approx(share, abs=0.5)


def test_the_table_in_the_text_is_that_of_the_physics() -> None:
    row = r"^\| (-?\d+) °C .*\| (\d+) % \| ([\d.]+) to 1 \|$"
    table = [tuple(map(float, found)) for found in re.findall(row, TEXT, flags=re.M)]
    assert [(cold, share) for cold, share, _ in table] == list(
        zip(TEMPERATURES, SHARES, strict=True)
    )
    for cold, _, printed in table:
        assert printed == pytest.approx(to_deliver(cold), abs=0.051)


@each_sheet
def test_the_fuel_delivered_evaporates_to_the_mixture_that_fires(sheet: Sheet) -> None:
    given = sheet.givens
    vapour = sheet.answers["cold-fuel"] * given["vapour_share"]
    assert given["cranking_air"] / vapour == pytest.approx(given["burnt_ratio"])


@each_sheet
def test_the_timers_fuel_is_the_sum_over_the_seconds_it_is_on(sheet: Sheet) -> None:
    given = sheet.givens
    seconds = 0.01 * sum(timer_on(DUNLIN.cold_start, 0.01 * step) for step in range(6000))
    richer = 1 / given["timed_ratio"] - 1 / given["plain_ratio"]
    extra = given["idle_air"] * richer * seconds
    assert sheet.answers["timer-fuel"] == pytest.approx(extra, rel=1e-3)
    assert (method := SET["timer-fuel"].method)
    assert DUNLIN.cold_start.timer == method.constants["timer"].value


def test_a_strip_bends_by_nearly_its_table_value() -> None:
    # Timoshenko 1925; 28.5 millionths a kelvin within 5 %: DIN 1715, TB 1577 (from memory).
    assert float(flexivity(1.2e-6, 20e-6)) == pytest.approx(28.5e-6, rel=0.05)


def test_the_job_sheets_limits_are_the_cards() -> None:
    choke, closed = DUNLIN.choke, DUNLIN.air_path.choke_closed_angle
    early, late = (
        rest_angle(choke, coil_step(choke, 273.15, 273.15, seconds), closed)
        for seconds in (180.0, 300.0)
    )
    assert early < pi / 2 < late
    drawn = plate_angle(choke, DUNLIN.air_path, Weather.at(), 283.15, vacuum=10 * 3386.389)
    assert degrees(drawn) == pytest.approx(33.5, abs=0.5)
    assert degrees(choke.cam_openings[1]) == pytest.approx(5)
    assert plate_angle(choke, DUNLIN.air_path, Weather.at(), 283.15) == closed

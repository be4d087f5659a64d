"""Unit 11's references against JCGM 100:2008 (GUM), chance itself, and the rig."""

import re
from math import hypot, sqrt

import numpy as np
import pytest
from fuelcircuits.benches.setting_up.found import LIMITS, Work, card_settings, point
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.circuits.bowl_vents import Vents, outside_lift
from fuelcircuits.physics.network.rig import Rig
from fuelmarks.questions import Sheet, draw, load

from tests.places import COURSE_FOLDER
from tests.published.table import Row, rows

UNIT = "11-setting-up"
SET = load(UNIT)
COURSE = COURSE_FOLDER
SHEETS = [draw(SET, seed) for seed in range(12)]
DRAWS = 200_000
RPM = np.pi / 30  # rad/s

each_sheet = pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: f"seed-{sheet.seed}")


def set_up(rig: Rig, **changed: float) -> Work:
    """Return the warm engine by the card, or with some settings changed."""
    return point(rig, card_settings(rig)._asdict() | changed | {"cam": "stop"}).now


def alike(limit: float, chance: np.random.Generator) -> np.ndarray:
    """Return errors within the limit, each as likely as any other."""
    return chance.uniform(-limit, limit, DRAWS)


@pytest.mark.parametrize("row", rows("17 combined standard uncertainty"))
def test_doubts_combine_as_in_the_standards_example(row: Row) -> None:
    known, compared, steels, warmth = map(float, re.findall(r"([\d.]+) nm", row.inputs))
    limits = {"rule_limit": sqrt(3) * hypot(compared, steels), "face_limit": sqrt(3) * warmth}
    assert SET["level-uncertainty"].reference(limits, {"repeat-uncertainty": known}) == row.approx


def test_equal_chances_are_those_of_the_standard() -> None:
    # JCGM 100:2008, 4.3.7, example 1: 0.40 either way is a standard uncertainty of 0.23
    # (from memory).
    givens = {"gauge_class": 0.40, "gauge_scale": 1.0}
    assert SET["gauge-uncertainty"].reference(givens, {}) == pytest.approx(0.23, abs=0.005)


@each_sheet
def test_a_gauges_errors_scatter_by_its_standard_uncertainty(sheet: Sheet) -> None:
    limit = sheet.givens["gauge_class"] * sheet.givens["gauge_scale"]
    scatter = float(np.std(alike(limit, np.random.default_rng(1))))
    assert sheet.answers["gauge-uncertainty"] == pytest.approx(scatter, rel=0.01)


@each_sheet
def test_means_scatter_by_the_uncertainty_of_repeats(sheet: Sheet) -> None:
    count = int(sheet.givens["repeat_count"])
    scattered = np.random.default_rng(2).normal(0, sheet.givens["repeat_spread"], (count, 50_000))
    means = np.mean(scattered, axis=0)
    assert sheet.answers["repeat-uncertainty"] == pytest.approx(float(np.std(means)), rel=0.01)


@each_sheet
def test_levels_scatter_by_the_combined_uncertainty(sheet: Sheet) -> None:
    chance, given = np.random.default_rng(3), sheet.givens
    errors = chance.normal(0, sheet.answers["repeat-uncertainty"], DRAWS)
    errors += alike(given["rule_limit"], chance) + alike(given["face_limit"], chance)
    assert sheet.answers["level-uncertainty"] == pytest.approx(float(np.std(errors)), rel=0.01)
    above = sheet.answers["highest-reading"] + errors
    limit = given["level_setting"] + given["level_tolerance"]
    assert np.mean(above < limit) > 0.95


@each_sheet
def test_ratios_scatter_by_the_ratios_uncertainty(sheet: Sheet) -> None:
    chance, given = np.random.default_rng(4), sheet.givens
    air = chance.normal(1, given["air_doubt"], DRAWS)
    fuel = chance.normal(1, given["fuel_doubt"], DRAWS)
    scatter = float(np.std(given["idle_ratio"] * air / fuel))
    assert sheet.answers["ratio-uncertainty"] == pytest.approx(scatter, rel=0.01)


@each_sheet
def test_the_vent_keeps_the_lift_that_the_physics_says(sheet: Sheet) -> None:
    given = sheet.givens
    vents = Vents(
        inside_bore=5e-3,
        outside_bore=8e-3,
        outside_setting=given["vent_lift"],
        outside_idle_angle=0.24,
        outside_rate=given["vent_rate"],
    )
    left = float(outside_lift(vents, 0.24 + given["stop_change"]))
    assert sheet.answers["vent-left"] == pytest.approx(left, abs=0.01e-3)


@each_sheet
def test_the_ball_is_held_by_that_vacuum(sheet: Sheet) -> None:
    area = np.pi * (sheet.givens["ball_seat"] / 2) ** 2
    assert sheet.answers["ball-lifts"] * area == pytest.approx(sheet.givens["ball_spring"])


def test_the_costs_of_two_mixtures_are_those_of_unit_10s_table() -> None:
    text = (COURSE / "units/10-exhaust/unit.md").read_text(encoding="utf-8")
    costs = dict(re.findall(r"^\| ([\d.]+) \|.*\| ([\d.]+) \|$", text, flags=re.M))
    thrifty = SET["thrifty-mixture"].reference({"rich_fuel": float(costs["0.85"])}, {})
    assert float(costs["1.05"]) == 1 == pytest.approx(thrifty)


def test_the_job_sheets_settings_are_the_cards() -> None:
    rig = read_rig(COURSE / "rigs/plover.toml")
    assert rig.float_bowl.float_setting == pytest.approx(9e-3)
    assert rig.vents.outside_setting == pytest.approx(1.5e-3)
    assert rig.low_speed.screw_turns == pytest.approx(2.75)
    assert rig.choke.set_temperature == pytest.approx(296.15)
    at_card = set_up(rig)
    assert at_card.stop.speed / RPM == pytest.approx(700, abs=5)
    assert at_card.fast.speed / RPM == pytest.approx(1739, abs=5)
    assert LIMITS["idle"] / RPM == pytest.approx(30)
    assert LIMITS["fast idle"] / RPM == pytest.approx(75)
    assert at_card.stop.co == pytest.approx(0.027, abs=0.0005)


def test_the_bench_moves_what_the_tasks_ask_about() -> None:
    rig = read_rig(COURSE / "rigs/plover.toml")
    low, opened = set_up(rig, float_setting=6.5e-3), set_up(rig, idle_screw=2.4)
    at_card_co = set_up(rig).stop.co
    assert low.stop.co > at_card_co + 0.003  # a high level richens the idle
    assert opened.lift < rig.vents.outside_setting - 0.1e-3  # the stop takes lift off the vent
    assert opened.fast.speed > set_up(rig).fast.speed + 100 * RPM  # and lifts the fast idle

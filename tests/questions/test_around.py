"""Around the carburettor: the references are the engine's own physics, and sums by hand."""

from dataclasses import replace
from math import degrees, pi

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.diagnosis.checks import find
from fuelcircuits.physics.engine.back_pressure import back_pressure
from fuelcircuits.physics.engine.recirculation import EXHAUST_TEMPERATURE, crowded_out
from fuelcircuits.physics.engine.work import timed_work
from fuelcircuits.physics.openings.two_phase import bore_area
from fuelmarks.questions import Choice, Selection, draw, load
from fuelmarks.questions.diagnosis.garage import JOBS, job_of

from tests.places import COURSE_FOLDER, RIGS

UNIT = "14-around"
SET = load(UNIT)
SHEETS = [draw(SET, seed) for seed in range(8)]
ENGINE = read_rig(RIGS / "plover.toml").engine
TABLE = {  # tests of the text's table, and the checks that they are
    "idle speed and needle": ("free-vacuum", "needle-swing"),
    "pinch the crankcase hose": ("crankcase-hose-pinched",),
    "hold 2500 rpm for a minute": ("held-vacuum",),
    "pinch the other hoses": ("hoses-pinched",),
    "fuel in a glass": ("fuel-density",),
    "heat riser by hand, cold": ("riser-heat",),
    "timing light": ("timing",),
    "fuel into a can": ("inlet-flow",),
    "one cylinder out": ("one-cylinder-out",),
    "recirculation by hand pump": ("recirculation-blanked",),
    "compression": ("compression",),
}
each_sheet = pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: f"seed-{sheet.seed}")


@each_sheet
def test_the_late_mark_by_the_whole_rim(sheet) -> None:  # type: ignore[no-untyped-def]
    rim = pi * sheet.givens["pulley"]
    by_hand = 360.0 * sheet.givens["mark_arc"] / rim
    assert degrees(sheet.answers["timing-mark"]) == pytest.approx(by_hand, rel=1e-9)


@each_sheet
def test_the_lost_work_is_that_of_the_engine(sheet) -> None:  # type: ignore[no-untyped-def]
    # The engine's parabola has 1.08 a radian squared, the question 3.3 % at ten degrees.
    late = sheet.answers["timing-mark"]
    behind = sheet.givens["idle_behind"]
    engine = replace(ENGINE, spark_late=late + behind)
    best = replace(ENGINE, spark_late=behind)
    high = 3 * ENGINE.idle_speed  # where the card's own spark stands at its best
    left = timed_work(engine, high) / timed_work(best, high)
    assert sheet.answers["timing-work"] == pytest.approx(1 - left, rel=0.01)


@each_sheet
def test_crowded_out_air_is_that_of_the_physics(sheet) -> None:  # type: ignore[no-untyped-def]
    given = sheet.givens
    scaled = given["exhaust_back"] * given["exhaust_heat"] / EXHAUST_TEMPERATURE
    air = crowded_out(scaled, given["charge_heat"])
    assert sheet.answers["crowded-out"] == pytest.approx(air, rel=1e-9)


@each_sheet
def test_pressure_at_full_load_is_that_of_the_physics(sheet) -> None:  # type: ignore[no-untyped-def]
    given = sheet.givens
    engine = replace(ENGINE, exhaust_resistance=given["held_pressure"] / given["held_air"] ** 2)
    back = back_pressure(engine, given["full_air"])
    assert sheet.answers["full-load-back"] == pytest.approx(back, rel=1e-9)


@each_sheet
def test_the_reviewed_sums_turn_those_of_unit_13_round(sheet) -> None:  # type: ignore[no-untyped-def]
    given, answers = sheet.givens, sheet.answers
    ring = bore_area(answers["loose-bore"]) - bore_area(given["shaft"])
    assert ring == pytest.approx(given["ring_area"], rel=1e-9)
    growth = bore_area(answers["grown-jet"]) / bore_area(given["card_jet"])
    assert given["lambda_before"] / growth == pytest.approx(given["lambda_now"], rel=1e-9)


def test_needle_cylinder_and_bill_by_hand() -> None:
    # 40 kPa, six cylinders, 3 l, eight tenths filled, 2 l of manifold: 0.4 l missing, 8 kPa.
    given = {"idle_pressure": 40e3, "cylinders": 6.0, "displacement": 3e-3, "filling": 0.8}
    given["manifold_volume"] = 2e-3
    assert SET["needle-drop"].reference(given, {}) == pytest.approx(8e3)
    # It costs 40 where others cost 100, so 60 % of one in six is missing: a tenth.
    given = {"weak_drop": 40.0, "good_drop": 100.0, "cylinders": 6.0}
    assert SET["power-lost"].reference(given, {}) == pytest.approx(0.1)
    # Two hours at 60 and a part of 100 are 220; half an hour of tests is 30.
    given = {"hour_rate": 60 / 3600, "guess_time": 7200.0, "part_price": 100.0, "test_time": 1800.0}
    assert SET["wasted-price"].reference(given, {}) == pytest.approx(190)


@each_sheet
def test_the_car_is_one_of_those_that_were_set_in_vain(sheet) -> None:  # type: ignore[no-untyped-def]
    car = round(sheet.givens["car_four"])
    fault, proof = SET["car-four-fault"], SET["car-four-proof"]
    assert isinstance(fault, Choice)
    assert isinstance(proof, Selection)
    assert car in JOBS["set-in-vain"].cars
    assert fault.right(sheet.givens) == job_of(car).cars[car][0]
    assert proof.enough(sheet.givens, frozenset(proof.best(sheet.givens)))


def test_the_minutes_of_the_text_are_those_of_the_checks_quickest_first() -> None:
    text = (COURSE_FOLDER / "units" / UNIT / "unit.md").read_text("utf-8")
    table = text.split("**What tells them apart.**")[1].split("\n+++")[0]
    rows = [[cell.strip() for cell in line.split("|")[1:6]] for line in table.splitlines()]
    told = {row[0]: int(row[1]) for row in rows if len(row) == 5 and row[1].isdecimal()}
    assert set(told) == set(TABLE)
    for name, checks in TABLE.items():
        assert {find(one).minutes for one in checks} == {told[name]}, name
    assert list(told.values()) == sorted(told.values())


def test_practice_cars_are_those_of_the_text() -> None:
    assert set(JOBS["around"].cars) == set(range(11, 17))
    assert set(JOBS["slow-uphill"].cars) == set(range(17, 23))

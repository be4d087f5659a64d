"""Unit 12's references against a textbook's nozzle, the network, chance, and the garage."""

import re
from pathlib import Path

import numpy as np
import pytest
from fuelcircuits import faults
from fuelcircuits.physics import network
from fuelcircuits.physics.atmosphere import Weather
from fuelcircuits.physics.fuel import Fuel
from fuelcircuits.rig import read_rig
from fuelmarks.exercises import Choice, Selection, Sheet, draw, load
from fuelmarks.garage import job_of

from tests.published.table import Row, rows

SET = load("12-diagnosis")
COURSE = Path(__file__).parents[1] / "course"
PLOVER = read_rig(COURSE / "rigs" / "plover.toml")
SHEETS = [draw(SET, seed) for seed in range(12)]
AIR, PETROL = Weather.at(), Fuel()
CASES = ("car-one", "car-two", "car-three")

each_sheet = pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: f"seed-{sheet.seed}")


@pytest.mark.parametrize("row", rows("2 nozzle choked"))
def test_the_leak_is_that_of_the_textbooks_nozzle(row: Row) -> None:
    # The row above it gives the inlet: 1 MPa, 600 degC, 150 m/s, 50 cm2, k 1.4, cp 1005.
    still = 873.0 + 150.0**2 / (2 * 1005.0)
    givens = {
        "hole_bore": float(np.sqrt(50e-4 * 4 / np.pi)),
        "hole_coefficient": 1.0,
        "outside_pressure": 1e6 * (still / 873.0) ** 3.5,
        "inside_pressure": 0.4e6,
        "air_temperature": still,
    }
    assert SET["leak-air"].reference(givens, {}) == row.approx


@each_sheet
def test_the_formula_of_the_text_gives_the_leak(sheet: Sheet) -> None:
    given, text = sheet.givens, (COURSE / "units" / "12-diagnosis" / "unit.md").read_text()
    factor = float(re.findall(r"dot m = ([\d.]+)", text)[0])
    area = np.pi / 4 * given["hole_bore"] ** 2
    flow = factor * given["hole_coefficient"] * area * given["outside_pressure"]
    flow /= given["air_temperature"] ** 0.5
    assert sheet.answers["leak-air"] == pytest.approx(flow, rel=2e-3)


def test_a_leak_leans_the_idle_as_the_network_has_it() -> None:
    idle = network.curb_idle(PLOVER, AIR, PETROL)
    at = (PLOVER.engine.idle_speed, float(idle.throttle_angle))
    opened = network.solve(faults.apply(PLOVER, "manifold-air-leak", 0.5), AIR, PETROL, *at)
    leak = float(opened.flows.leak)
    through = float(opened.air_flow) - leak
    given = {"idle_lambda": through / float(opened.fuel_flow * opened.stoichiometric)}
    given |= {"idle_air": through}
    assert SET["leaned-lambda"].reference(given, {"leak-air": leak}) == pytest.approx(
        float(opened.mixture), rel=1e-6
    )


@each_sheet
def test_minutes_are_what_a_long_run_of_cases_takes(sheet: Sheet) -> None:
    given, chance = sheet.givens, np.random.default_rng(1)
    settled = chance.random(200_000) < given["quick_chance"]
    minutes = given["quick_minutes"] + np.where(settled, 0.0, given["slow_minutes"])
    assert sheet.answers["expected-minutes"] == pytest.approx(float(minutes.mean()), rel=0.01)


@each_sheet
@pytest.mark.parametrize("case", CASES)
def test_the_right_name_is_the_fault_of_the_car(sheet: Sheet, case: str) -> None:
    car = round(sheet.givens[case.replace("-", "_")])
    fault = SET[f"{case}-fault"]
    assert isinstance(fault, Choice)
    assert fault.right(sheet.givens) == job_of(car).cars[car][0]


@each_sheet
@pytest.mark.parametrize("case", CASES)
def test_a_proof_with_a_test_left_out_is_none(sheet: Sheet, case: str) -> None:
    proof = SET[f"{case}-proof"]
    assert isinstance(proof, Selection)
    best = frozenset(proof.best(sheet.givens))
    assert proof.enough(sheet.givens, best)
    assert not any(proof.enough(sheet.givens, best - {test}) for test in best)

"""Unit 12's references against a textbook's nozzle, the network, and the garage."""

import re

import numpy as np
import pytest
from fuelcircuits import faults
from fuelcircuits.answer_sheet.sheet import record
from fuelcircuits.cards import read_rig
from fuelcircuits.diagnosis.car import Car
from fuelcircuits.diagnosis.checks import find
from fuelcircuits.diagnosis.plan import cheapest, left
from fuelcircuits.diagnosis.shown import reading_text
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network import solving as network
from fuelmarks.marking.marking import mark_sheet
from fuelmarks.questions import Choice, Selection, Sheet, draw, load
from fuelmarks.questions.diagnosis.against import ruled_out
from fuelmarks.questions.diagnosis.garage import JOBS, job_of, readings_of, table_of

from tests.places import COURSE_FOLDER
from tests.published.table import Row, rows

SET = load("12-diagnosis")
TEXT_CARS = [  # what the worked example and its gaps say of the yard's cars, and 1 inH2O in Pa
    (1, "port-vacuum", "4.76 inH2O (1186 Pa), give or take 0.14", 249.09),
    (5, "idle-vacuum", "17.7 inHg (59.9 kPa), give or take 0.2", 3386.39),
]
COURSE = COURSE_FOLDER
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
def test_the_formula_of_the_hint_gives_the_leak(sheet: Sheet) -> None:
    given, hint = sheet.givens, SET["leak-air"].hints[1]
    factor = float(re.findall(r"flow is ([\d.]+) times", hint)[0])
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


@pytest.mark.parametrize(
    ("case", "job"), list(zip(CASES, ("rough-idle", "rich", "no-pull"), strict=True))
)
def test_a_sheet_names_the_cars_of_the_job(case: str, job: str) -> None:
    given = next(one for one in SET.givens if one.name == case.replace("-", "_"))
    assert given.values == tuple(JOBS[job].cars)


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


@pytest.mark.parametrize(("car", "test", "words", "pascals"), TEXT_CARS)
def test_the_text_quotes_the_cars_of_the_yard(
    car: int, test: str, words: str, pascals: float
) -> None:
    text = (COURSE / "units" / "12-diagnosis" / "unit.md").read_text()
    shop, unit, standard, prefix, doubt = re.findall(
        r"([\d.]+) (\w+) \(([\d.]+) (k?)Pa\), give or take ([\d.]+)", words
    )[0]
    assert words in text
    assert f": {shop} {unit}, give or take {doubt} {unit}" in Car(car).test(test)
    assert float(shop) * pascals == pytest.approx(
        float(standard) * (1e3 if prefix else 1.0), rel=2e-3
    )


def test_the_pages_of_the_text_show_what_it_says() -> None:
    leak, jet = Car(1).page("manifold-air-leak"), Car(5).page("blocked-idle-jet")
    port = next(line for line in leak.lines if line[0].startswith("Idle-port vacuum"))
    vacuum = next(line for line in jet.lines if line[0].startswith("Manifold vacuum at warm"))
    assert set(port[1:]) == {"3.67 inH2O"}
    nearest = min((float(cell.split()[0]) for cell in vacuum[1:]), key=lambda one: abs(one - 17.7))
    assert (nearest - 17.7) / 0.2 == pytest.approx(9.0)


def told(sheet: Sheet, case: str, suspect: str, tests: str) -> str:
    texts = {f"{case}-fault": suspect, f"{case}-proof": tests}
    records = {name: record(SET.unit, name, text) for name, text in texts.items()}
    return mark_sheet(SET, sheet, records)[f"{case}-fault"].comment


@each_sheet
@pytest.mark.parametrize("case", CASES)
def test_a_wrong_suspect_is_told_by_which_reading_it_is_ruled_out(sheet: Sheet, case: str) -> None:
    car = round(sheet.givens[case.replace("-", "_")])
    table, readings = table_of(car), readings_of(car)
    fault, proof = SET[f"{case}-fault"], SET[f"{case}-proof"]
    assert isinstance(fault, Choice)
    assert isinstance(proof, Selection)
    best = proof.best(sheet.givens)
    for wrong in set(table.suspects) - {fault.right(sheet.givens)}:
        said = told(sheet, case, wrong, ", ".join(best))
        named = [one for one in best if f"{find(one).label} reads" in said]
        assert named, said
        # What it names is true: those readings, and no fewer of them, do rule the suspect out.
        assert wrong not in left(table, {one: readings[one] for one in named})
        for one in named:
            assert wrong in left(table, {each: readings[each] for each in named if each != one})
            assert reading_text(find(one), readings[one]) in said


@pytest.mark.parametrize("car", [109, 110, 309, 310, 401, 405])
def test_a_car_with_a_sound_carburettor_tells_a_wrong_suspect_by_ones_own_reading(car: int) -> None:
    table, readings = table_of(car), readings_of(car)
    right, proof = job_of(car).cars[car][0], cheapest(table, readings).checks
    assert right in faults.AROUND
    for wrong in set(table.suspects) - {right}:
        said = ruled_out(table, readings, wrong, proof)
        named = [one for one in proof if f"{find(one).label} reads" in said]
        assert wrong not in left(table, {one: readings[one] for one in named}), said
        assert "You named no tests" not in said


@each_sheet
@pytest.mark.parametrize("case", CASES)
def test_who_named_no_test_is_told_the_quickest_that_speaks_against_it(
    sheet: Sheet, case: str
) -> None:
    car = round(sheet.givens[case.replace("-", "_")])
    right = job_of(car).cars[car][0]
    wrong = next(one for one in table_of(car).suspects if one != right)
    said = told(sheet, case, wrong, "")
    assert said.startswith("Not right. You named no tests. ")
    assert right.replace("-", " ") not in said


WHERE = {  # in which unit before this one a suspect is spoken of, and by which words
    "blocked-idle-jet": ("04", "low-speed jet"),
    "blocked-economizer": ("04", "economizer"),
    "manifold-air-leak": ("01", "lets air in below the plate"),
    "mixture-screw-in": ("04", "mixture screw"),
    "bleed-valve-stuck-open": ("05", "stuck ajar"),
    "worn-throttle-shaft": ("01", "throttle shaft"),
    "float-set-low": ("02", "Float setting"),
    "float-set-high": ("02", "Float setting"),
    "soaked-float": ("02", "soak"),
    "high-fuel-pressure": ("02", "fuel pressure"),
    "low-fuel-pressure": ("02", "fuel pressure"),
    "clogged-inlet-strainer": ("02", "strainer"),
    "cover-gasket-leak": ("03", "cover gasket"),
    "outside-vent-stuck-open": ("03", "outside vent"),
    "main-jet-too-large": ("06", "main jet"),
    "main-jet-too-small": ("06", "main jet"),
    "power-rod-stuck-up": ("07", "stuck up"),
    "power-rod-stuck-down": ("07", "stuck down"),
    "torn-pump-cup": ("08", "cup"),
    "blocked-pump-jet": ("08", "pump jet"),
    "leaking-pump-discharge-check": ("08", "discharge check"),
    "restricted-air-cleaner": ("01", "cleaner"),
    "vacuum-hose-off": ("12", "vacuum hose that is off"),
    "crankcase-valve-stuck-open": ("12", "crankcase valve** that hangs open"),
    "recirculation-stuck-open": ("12", "recirculation valve** that hangs open"),
    "weak-cylinder": ("12", "weak cylinder"),
    "late-ignition": ("12", "Late spark"),
    "exhaust-restricted": ("12", "blocked exhaust"),
    "heat-riser-stuck-shut": ("12", "heat riser** stuck shut"),
    "early-ignition": ("14", "early spark"),
    "stale-fuel": ("14", "Stale fuel"),
}


def test_every_suspect_is_taught_before_it_is_asked_for() -> None:
    suspects = {one for job in JOBS.values() for one in job.suspects}
    assert set(WHERE) == suspects
    for suspect, (unit, words) in WHERE.items():
        text = next(COURSE.glob(f"units/{unit}-*/unit.md")).read_text()
        assert words.lower() in text.lower(), suspect

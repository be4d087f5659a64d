"""Every car can be told by its tests, the book is the model's, and no notebook holds the key."""

import json
from importlib.resources import files
from pathlib import Path

import numpy as np
import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.diagnosis import checks, shop_book
from fuelcircuits.diagnosis.car import Car
from fuelcircuits.diagnosis.jobs import garage
from fuelcircuits.diagnosis.plan import cheapest, left
from fuelcircuits.diagnosis.shop_book import book_of
from fuelcircuits.diagnosis.subject import Subject, warmed
from fuelcircuits.diagnosis.table import HEALTHY, SEVERITIES
from fuelcircuits.errors import CardError, RangeError
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.quantities.units import Q
from fuelmarks.questions.diagnosis.garage import JOBS, job_of, readings_of, table_of, write

from tests.places import RIGS

CARS = [number for job in JOBS.values() for number in job.cars]
SLOW = ("shot", "shot-time", "second-shot", "hot-cranking")


@pytest.mark.parametrize("number", CARS)
def test_all_tests_together_leave_the_fault_and_nothing_else(number: int) -> None:
    assert left(table_of(number), readings_of(number)) == (job_of(number).cars[number][0],)


@pytest.mark.parametrize("number", CARS)
def test_a_proof_need_not_buy_every_test(number: int) -> None:
    plan = cheapest(table_of(number), readings_of(number))
    assert plan.minutes < sum(check.minutes for check in table_of(number).checks) / 2


def test_notebooks_find_the_same_readings(tmp_path: Path) -> None:
    write(tmp_path / "jobs.json")
    kept = files(shop_book.__package__).joinpath("jobs.json").read_text("utf-8")
    assert json.loads((tmp_path / "jobs.json").read_text()) == json.loads(kept)


@pytest.mark.parametrize("number", [101, 204, 308])
def test_a_graded_car_does_not_tell(number: int) -> None:
    assert garage(number).told is None


@pytest.mark.parametrize("rig_name", ["plover", "dunlin"])
@pytest.mark.parametrize(
    "fault", [HEALTHY, "blocked-idle-jet", "manifold-air-leak", "float-set-high", "torn-pump-cup"]
)
def test_the_book_is_what_the_model_says(rig_name: str, fault: str) -> None:
    book, rig = book_of(rig_name), read_rig(RIGS / f"{rig_name}.toml")
    name = "" if fault == HEALTHY else fault
    car = Subject.with_fault(warmed(rig, Weather.at(), Fuel()), name, 1.0)
    for check, kept in zip(book.checks, book.rows(fault)[-1], strict=True):
        if check.name not in SLOW:
            assert check.read(car) == pytest.approx(kept, abs=0.05 * check.uncertainty(kept))


@pytest.mark.parametrize("rig_name", ["plover", "dunlin"])
def test_the_book_knows_the_pump(rig_name: str) -> None:
    book, rig = book_of(rig_name), read_rig(RIGS / f"{rig_name}.toml")
    car = Subject(warmed(rig, Weather.at(), Fuel()), rig)
    for name in ("shot", "shot-time", "second-shot"):
        kept = book.rows(HEALTHY)[0][book.column(name)]
        assert checks.find(name).read(car) == pytest.approx(kept, rel=0.01)


def test_tests_cost_their_minutes_once() -> None:
    car = Car(103)
    assert "inHg, give or take 0.2 inHg. 3 min, 3 min in all" in car.test("idle-vacuum")
    assert "8 min, 11 min in all" in car.test("Port vacuum")
    car.test("idle-vacuum")
    assert car.minutes == 11


def test_a_bowl_that_is_open_is_not_opened_again() -> None:
    # With the float setting done, the float's mass takes three more minutes: common practice.
    car = Car(201)
    assert "25 min, 25 min in all" in car.test("float-setting")
    assert "28 min, 28 min in all" in car.test("float-mass")
    car.test("vent-gap-open")
    assert car.minutes == 38


def test_a_page_shows_what_a_fault_would_show() -> None:
    page = Car(103).page("manifold-air-leak")
    vacuum = next(line for line in page.lines if line[0].startswith("Manifold vacuum"))
    assert [float(cell.split()[0]) for cell in vacuum[1:]] == sorted(
        (float(cell.split()[0]) for cell in vacuum[1:]), reverse=True
    )


def test_between_the_columns_of_a_page_the_book_goes_in_straight_lines() -> None:
    book = book_of("plover")
    column = book.column("port-vacuum")
    row = [each[column] for each in book.rows("blocked-economizer")]
    cells = Car(101).page("blocked-economizer").lines[1][1:]
    shown = [Q(float(number), unit).m_as("Pa") for number, unit in map(str.split, cells)]
    assert row == pytest.approx(np.interp(SEVERITIES, (0.0, 0.3, 0.6, 1.0), shown), rel=0.01)


@pytest.mark.parametrize("number", CARS)
def test_no_gap_is_read_below_nothing(number: int) -> None:
    assert readings_of(number).get("vent-gap-open", 0.0) >= 0.0


@pytest.mark.parametrize(
    ("act", "message"),
    [
        (lambda: Car(999), "car must be one of 1, 2, .*, got 999"),
        (lambda: Car(103).test("float-mass"), "test must be one of idle-vacuum, .*'float-mass'"),
        (lambda: Car(103).page("soaked-float"), "suspect must be one of .*'soaked-float'"),
    ],
)
def test_what_is_not_there_is_refused(act: object, message: str) -> None:
    assert callable(act)
    with pytest.raises(RangeError, match=message):
        act()


def test_a_rig_without_a_book_is_refused() -> None:
    with pytest.raises(CardError, match="rig must be one whose faults have been worked out"):
        book_of("heron")

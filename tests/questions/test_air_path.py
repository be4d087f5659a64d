"""The air side: the references are those of the physics, and of the textbooks they come from."""

from math import pi, sqrt

import pytest
from fuelcircuits.physics.engine.engine import swept_flow
from fuelcircuits.physics.engine.venturi import depression, throat_velocity
from fuelcircuits.physics.openings.plate import open_area
from fuelmarks.questions import Sheet, draw, load

from tests.published.table import Row, rows

UNIT = "01-air-path"
SET = load(UNIT)
SHEETS = [draw(SET, seed) for seed in range(12)]
BOOK_R, NO_SHAFT = 287.0, 1e-6
each_sheet = pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: f"seed-{sheet.seed}")

BIG_FOUR = pi / 4 * 0.1**2 * 0.12 * 4  # m3, the books' four cylinders of 100 mm by 120 mm
BOOKS = {
    # speed [1/min], volumetric efficiency, air [kg/m3], throat [mm], discharge
    "2000 rpm": (2000, 0.7, 1.2, 30, 0.8),
    "3000": (3000, 0.8, 1.013e5 / (BOOK_R * 298), 35, 0.82),
}


@pytest.mark.parametrize(
    ("name", "row"),
    [(name, *rows("2 venturi depression incompressible", name)[0].values) for name in BOOKS],
)
def test_the_chain_to_the_depression_is_that_of_the_textbooks(name: str, row: Row) -> None:
    speed, filled, density, throat, discharge = BOOKS[name]
    given = {
        "displacement": BIG_FOUR,
        "engine_speed": speed / 60,
        "volumetric_efficiency": filled,
        "air_density": density,
        "venturi_bore": throat / 1000 * sqrt(discharge / 2),  # one throat, not two, throttled
    }
    answers: dict[str, float] = {}
    for step in ("air-demand", "throat-velocity", "simple-depression"):
        answers[step] = SET[step].reference(given, answers)
    assert answers["simple-depression"] / 1e5 == row.digits


@each_sheet
def test_air_and_depression_are_those_of_the_physics(sheet: Sheet) -> None:
    given, answers = sheet.givens, sheet.answers
    swept = float(swept_flow(given["displacement"], 2 * pi * given["engine_speed"]))
    air = swept * given["volumetric_efficiency"] * given["air_density"]
    assert answers["air-demand"] == pytest.approx(air)
    throats = pi / 2 * given["venturi_bore"] ** 2
    found = depression(air, throats, given["air_density"])
    assert answers["simple-depression"] == pytest.approx(float(found))


@each_sheet
def test_the_true_depression_is_that_of_the_physics(sheet: Sheet) -> None:
    given = sheet.givens
    ratio = 1 - sheet.answers["true-depression"] / given["ambient_pressure"]
    found = throat_velocity(ratio, given["air_temperature"])
    assert given["throat_speed"] == pytest.approx(found, rel=5e-4)


@pytest.mark.parametrize("row", rows("2 throat velocity from depression"))
def test_the_true_depression_is_that_of_the_textbook(row: Row) -> None:
    given = {"ambient_pressure": 1e5, "air_temperature": 298.0, "throat_speed": row.expected}
    fall = SET["true-depression"].reference(given, {})
    assert fall / 1e5 == pytest.approx(row.number("depression"), rel=2 * 0.001)
    assert throat_velocity(1 - fall / 1e5, 298.0) == row.approx


@each_sheet
def test_the_plate_opens_as_the_physics_says(sheet: Sheet) -> None:
    given, answers = sheet.givens, sheet.answers
    plate = given["throttle_bore"], NO_SHAFT, given["closed_angle"]
    area = float(open_area(*plate, given["open_angle"]))
    assert answers["open-area"] == pytest.approx(area, rel=1e-3)
    twice = open_area(*plate, answers["angle-for-twice"])
    assert twice == pytest.approx(2 * area, rel=1e-3)


@pytest.mark.parametrize("shaft", [6e-3, 8e-3])
@each_sheet
def test_a_shaft_takes_some_of_the_opening(sheet: Sheet, shaft: float) -> None:
    given = sheet.givens
    left = open_area(given["throttle_bore"], shaft, given["closed_angle"], given["open_angle"])
    assert 0.6 * sheet.answers["open-area"] < float(left) < sheet.answers["open-area"]

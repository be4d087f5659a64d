"""Shop arithmetic: units, drills and tolerances against standards and the course's registry."""

from math import pi, sqrt
from statistics import NormalDist

import pytest
from fuelcircuits.quantities.units import Q
from fuelmarks.questions import Sheet, draw, load

from tests.published.table import Row, rows

UNIT = "00-shop-arithmetic"
SET = load(UNIT)
SHEETS = [draw(SET, seed) for seed in range(12)]
each_sheet = pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: f"seed-{sheet.seed}")
INCH = 25.4  # mm, exact
DRILLS = [row for number in range(50, 61) for row in rows("13 number drill diameter", f"#{number}")]


@pytest.mark.parametrize("row", DRILLS)
def test_the_hole_is_that_of_the_standard_drill(row: Row) -> None:
    area = SET["drill-area"].reference({"drill": row.number("#")}, {})
    assert sqrt(4 * area * 1e6 / pi) / INCH == row.approx


@each_sheet
def test_pressures_add_up_as_the_registry_converts_them(sheet: Sheet) -> None:
    shown = sheet.givens_shown
    ambient, vacuum, gauge = (
        Q(*shown[name]) for name in ("ambient_pressure", "manifold_vacuum", "supply_pressure")
    )
    assert sheet.answers["manifold-pressure"] == pytest.approx((ambient - vacuum).m_as("Pa"))
    assert sheet.answers["fuel-absolute"] == pytest.approx((ambient + gauge).m_as("Pa"))


@pytest.mark.parametrize(
    ("unit", "row"),
    [
        (unit, *row.values)
        for unit in ("inHg", "psi")
        for row in rows("14 unit conversion", f"1 {unit} ")
    ],
)
def test_a_gauge_of_one_counts_as_the_standard_says(unit: str, row: Row) -> None:
    given = {"ambient_pressure": 0.0, "supply_pressure": Q(1, unit).m_as("Pa")}
    assert SET["fuel-absolute"].reference(given, {}) == row.approx


@each_sheet
def test_one_jet_for_two_has_the_area_of_both(sheet: Sheet) -> None:
    bore = sheet.answers["one-for-two"]
    assert pi / 4 * bore**2 == pytest.approx(2 * sheet.answers["drill-area"])


@each_sheet
def test_stacks_are_those_of_sums_of_chance(sheet: Sheet) -> None:
    # Independent errors add as variances do: the standard library's normal distributions.
    parts = [sheet.givens[f"{part}_tolerance"] for part in ("cover", "gasket", "tab", "rule")]
    chance = sum((NormalDist(0, part) for part in parts[1:]), NormalDist(0, parts[0]))
    assert sheet.answers["likely-stack"] == pytest.approx(chance.stdev)
    assert max(parts) < sheet.answers["likely-stack"] < sheet.answers["worst-stack"]


@each_sheet
def test_a_burette_of_petrol_is_lighter_than_one_of_water(sheet: Sheet) -> None:
    shown = sheet.givens_shown
    volume, time, density = (Q(*shown[name]) for name in ("burette", "run_time", "fuel_density"))
    assert sheet.answers["burette-flow"] == pytest.approx((volume / time * density).m_as("kg/s"))
    drawn = sheet.answers["ethanol-share"] * shown["sample"].value
    assert drawn + shown["water_added"].value == pytest.approx(shown["layer"].value)

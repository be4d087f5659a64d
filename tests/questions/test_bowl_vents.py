"""Bowl venting: the references are those of the physics, and of the textbooks they come from."""

from math import pi

import pytest
from fuelcircuits.physics.circuits.bowl_vents import (
    Surroundings,
    Vents,
    bowl_pressure,
    openings,
)
from fuelcircuits.physics.circuits.canister import Canister, canister_run
from fuelcircuits.physics.circuits.hot_soak import outlets
from fuelcircuits.physics.matter.fuel import Fuel, vapour_pressure
from fuelcircuits.physics.openings.orifice import ideal_flux
from fuelmarks.questions import Sheet, draw, load

from tests.published.table import Row, rows

UNIT = "03-bowl-vents"
SET = load(UNIT)
SHEETS = [draw(SET, seed) for seed in range(12)]
PSI = 6894.757  # NIST SP 811
GRAVITY = 9.81  # m/s2, as the questions say
each_sheet = pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: f"seed-{sheet.seed}")

CLEANERS = {
    # without cleaner, drop in the throat and loss in the cleaner [bar]; the rows' inputs
    "Ex 11.9(b)": (14.0, 1.013 - 0.834, 30 / 750),
    "Ex 9.8": (14.5, 1.013 - 0.825, 37.5 / 750),
}


def vents_of(sheet: Sheet) -> Vents:
    """Return the vents of the physics with the sheet's dimensions."""
    given = sheet.givens
    return Vents(
        inside_bore=given["inside_bore"],
        outside_bore=given["vent_bore"],
        outside_setting=given["vent_lift"],
    )


@pytest.mark.parametrize(
    "row",
    [
        *rows("2 air cleaner effect (bowl vented to atmosphere)"),
        *rows("2 air cleaner effect", "14.5"),
    ],
)
def test_the_hung_vent_is_the_textbook_cleaner(row: Row) -> None:
    ratio, drop, loss = next(CLEANERS[name] for name in CLEANERS if name in row.source)
    given = {"cruise_ratio": ratio, "booster_drop": drop, "cleaner_loss": loss}
    assert SET["hung-ratio"].reference(given, {}) == row.approx


@each_sheet
def test_the_hung_vent_enriches_as_the_physics_says(sheet: Sheet) -> None:
    given = sheet.givens
    drop, density = given["booster_drop"], 740.0
    richer = ideal_flux(drop + given["cleaner_loss"], density) / ideal_flux(drop, density)
    assert sheet.answers["hung-ratio"] == pytest.approx(given["cruise_ratio"] / richer, rel=1e-12)
    more = given["weekly_fuel"] * richer
    assert sheet.answers["extra-fuel"] == pytest.approx(more - given["weekly_fuel"], rel=1e-9)


@each_sheet
def test_the_opening_and_its_share_are_those_of_the_physics(sheet: Sheet) -> None:
    vents = vents_of(sheet)
    opening = float(openings(vents, 0.0).outside)
    assert sheet.answers["vent-opening"] == pytest.approx(opening, rel=1e-6)
    into_bore = sheet.givens["boiled"] * float(outlets(vents).inside)
    assert sheet.answers["into-bore"] == pytest.approx(into_bore, rel=1e-6)


@each_sheet
def test_the_vapour_pressure_is_that_of_the_physics(sheet: Sheet) -> None:
    found = vapour_pressure(Fuel(reid_vapour_pressure=10 * PSI), sheet.givens["bowl_temperature"])
    assert sheet.answers["vapour-pressure"] == pytest.approx(float(found), rel=1e-3)


@pytest.mark.parametrize("row", rows("8 true vapour pressure", "RVP 10 psi"))
def test_the_vapour_pressure_is_that_of_the_table(row: Row) -> None:
    kelvin = (row.number("psi;") + 459.67) / 1.8
    found = SET["vapour-pressure"].reference({"bowl_temperature": kelvin}, {})
    assert found / PSI == row.approx


@each_sheet
def test_after_the_purge_time_the_bed_is_half_empty(sheet: Sheet) -> None:
    given = sheet.givens
    bed = Canister(capacity=given["bed_capacity"], purge_ratio=given["purge_ratio"])
    times = [0.0, sheet.answers["purge-time"]]
    load_left = canister_run(bed, times, 0.0, given["purge_air"], load=given["bed_capacity"])
    assert load_left[-1][0] == pytest.approx(given["bed_capacity"] / 2, rel=1e-5)


@each_sheet
def test_the_hot_float_asks_what_the_float_unit_asks(sheet: Sheet) -> None:
    given = sheet.givens
    buoyancy = given["immersed"] * given["fuel_density"] * GRAVITY
    old = load("02-float-bowl")["hot-level-shift"].reference(given, {"buoyancy": buoyancy})
    assert sheet.answers["hot-float"] == pytest.approx(old)


@each_sheet
def test_a_leaking_gasket_lifts_the_bowl_as_the_vents_balance_does(sheet: Sheet) -> None:
    # The sum takes the air as it is outside; the physics lets it thin out on its way.
    given = sheet.givens
    bore = 2 * (given["inside_area"] / pi) ** 0.5
    vents = Vents(inside_bore=bore, outside_bore=0.0, gasket_leak=given["leak_area"])
    horn = 100e3 - given["horn_loss"]
    above = bowl_pressure(vents, Surroundings(horn, 100e3, 0.35)) - horn
    assert sheet.answers["leaking-gasket"] == pytest.approx(above, rel=2e-2)

"""The overhaul: the references are geometry, the physics of the course, and the published rules."""

from math import pi

import pytest
from fuelcircuits.physics.circuits.power import Power, rod_lift
from fuelcircuits.physics.numerics.interpolation import linspace
from fuelcircuits.physics.openings.gas_flow import mass_flow_and_slopes
from fuelcircuits.physics.openings.two_phase import bore_area
from fuelmarks.questions import draw, load

UNIT = "13-overhaul"
SET = load(UNIT)
SHEETS = [draw(SET, seed) for seed in range(12)]
each_sheet = pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: f"seed-{sheet.seed}")


@each_sheet
def test_the_arch_under_the_cover_is_a_parabola(sheet) -> None:  # type: ignore[no-untyped-def]
    # Archimedes: a segment of a parabola is two thirds of its rectangle; here summed in slices.
    span, rise = sheet.givens["span"], sheet.givens["rise"]
    places = linspace(0.0, 1.0, 2001)
    heights = [4 * rise * at * (1 - at) for at in places]
    area = span * sum(heights) / (len(places) - 1)
    assert sheet.answers["gasket-gap"] == pytest.approx(area, rel=1e-6)


@each_sheet
def test_a_worn_jet_passes_as_much_more_as_its_area_has_grown(sheet) -> None:  # type: ignore[no-untyped-def]
    bore, worn = sheet.givens["card_jet"], sheet.givens["worn_by"]
    growth = bore_area(bore + worn) / bore_area(bore) - 1
    assert sheet.answers["worn-jet-fuel"] == pytest.approx(growth, rel=1e-12)
    leaner = sheet.answers["worn-jet-lambda"] * (1 + growth)
    assert leaner == pytest.approx(sheet.givens["cruise_lambda"], rel=1e-12)


@each_sheet
def test_the_air_past_the_shaft_is_that_of_the_physics(sheet) -> None:  # type: ignore[no-untyped-def]
    given = sheet.givens
    ring = pi / 4 * ((given["shaft"] + given["play"]) ** 2 - given["shaft"] ** 2)
    assert sheet.answers["shaft-ring"] == pytest.approx(ring, rel=1e-9)
    outside, warmth = given["barometer"], given["air_temperature"]
    flow = mass_flow_and_slopes(2 * ring, outside, 0.4 * outside, warmth, given["flow_share"])
    assert sheet.answers["shaft-air"] == pytest.approx(flow.flow, rel=2e-3)


@each_sheet
def test_the_rod_begins_to_lift_where_the_physics_has_it(sheet) -> None:  # type: ignore[no-untyped-def]
    given, vacuum = sheet.givens, sheet.answers["rod-lifts-at"]
    power = Power(
        piston_bore=given["piston_bore"],
        spring_force=given["spring_force"],
        spring_rate=100.0,
        travel=6e-3,
        lean_step=0.9e-3,
        middle_step=0.7e-3,
        rich_step=0.5e-3,
    )
    assert rod_lift(power, 1.001 * vacuum) == 0.0
    assert rod_lift(power, 0.999 * vacuum) > 0.0


def test_a_screw_clamps_by_the_rule_of_the_handbook() -> None:
    # T = K F d, K = 0.2: Shigley's Mechanical Engineering Design, eq. 8-27, from memory. Worked
    # by hand: 2 N m on an M5 is 2 / (0.2 * 0.005) = 2000 N.
    given = {"torque": 2.0, "thread": 5e-3}
    assert SET["screw-clamp"].reference(given, {}) == pytest.approx(2000.0)


def test_a_soaked_float_by_hand() -> None:
    # 1.5 g of petrol of 750 kg/m3 are 2 cm3: a twelfth of a float of 24 cm3.
    given = {"soaked_by": 1.5e-3, "fuel_density": 750.0, "float_volume": 24e-6}
    assert SET["soaked-share"].reference(given, {}) == pytest.approx(1 / 12)


def test_the_bill_by_hand() -> None:
    # 40 + 75 + 70 + 115 minutes are five hours; at 60 with a kit of 38 that is 338.
    minutes = {"strip_time": 40, "gauge_time": 75, "build_time": 70, "car_time": 115}
    given = {name: 60.0 * value for name, value in minutes.items()}
    hours = SET["hands-on-time"].reference(given, {})
    assert hours == pytest.approx(5 * 3600)
    money = {"hour_rate": 60 / 3600, "kit_price": 38.0}
    assert SET["job-price"].reference(money, {"hands-on-time": hours}) == pytest.approx(338)

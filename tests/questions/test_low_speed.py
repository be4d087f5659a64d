"""The low-speed unit: the references are those of the physics, and of a textbook's jet."""

from dataclasses import replace
from math import pi, tan

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.circuits.low_speed import needle_area
from fuelcircuits.physics.circuits.needle_valve import seat_force
from fuelcircuits.physics.engine.venturi import depression
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.solving import curb_idle, solve
from fuelmarks.questions import Sheet, draw, load

from tests.places import RIGS
from tests.published.table import Row, rows

UNIT = "04-low-speed"
SET = load(UNIT)
SHEETS = [draw(SET, seed) for seed in range(12)]
AIR, PETROL = Weather.at(), Fuel()
each_sheet = pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: f"seed-{sheet.seed}")


def plover(**changes: float) -> Rig:
    """Return the rig plover with its low-speed circuit changed."""
    rig = read_rig(RIGS / "plover.toml")
    return replace(rig, low_speed=replace(rig.low_speed, **changes))


@pytest.mark.parametrize("row", rows("2 venturi depression from fuel flow"))
def test_the_jet_is_that_of_the_textbook(row: Row) -> None:
    given = {"jet_bore": 1.2e-3, "jet_coefficient": 0.65, "fuel_density": 750.0}
    drop = SET["jet-drop"].reference(given, {"idle-fuel": 6 / 3600})
    assert (drop + 750 * 9.81 * 0.003) / 9.81 == row.approx


@each_sheet
def test_the_jet_drop_is_that_of_the_physics(sheet: Sheet) -> None:
    given, fuel = sheet.givens, sheet.answers["idle-fuel"]
    area = given["jet_coefficient"] * pi / 4 * given["jet_bore"] ** 2
    found = depression(fuel, area, given["fuel_density"])
    assert sheet.answers["jet-drop"] == pytest.approx(found, rel=1e-9)


@each_sheet
def test_the_ring_is_near_that_of_the_cone_in_a_sharp_seat(sheet: Sheet) -> None:
    # The physics takes the ring at right angles to the cone, the question the flat ring, and
    # the physics puts the seat's own bore in series, which is undone here.
    given = sheet.givens
    half = given["needle_taper"] / 2
    circuit = replace(
        plover().low_speed,
        seat_bore=given["screw_seat"],
        needle_angle=2 * half / (1 + half**2 / 3),
        screw_pitch=given["screw_pitch"],
    )
    both, seat = needle_area(circuit, given["screw_turns"]), pi / 4 * given["screw_seat"] ** 2
    assert tan(circuit.needle_angle / 2) == pytest.approx(half, rel=0.01)
    assert (both**-2 - seat**-2) ** -0.5 == pytest.approx(sheet.answers["screw-ring"], rel=0.04)


def test_blocked_bleeds_enrich_as_the_whole_carburettor_does() -> None:
    clean = curb_idle(plover(), AIR, PETROL)
    blocked = solve(
        plover(bypass_bore=0.0, air_bleed_bore=0.0), AIR, PETROL, clean.speed, clean.throttle_angle
    )
    circuit, density = plover().low_speed, float(PETROL.petrol_density)
    given = {
        "idle_ratio": float(clean.ratio),
        "blocked_vacuum": float(blocked.chamber_vacuum[0]),
        "port_depth": float(circuit.fall - circuit.lift),
        "fuel_density": density,
    }
    pull = AIR.pressure - clean.pressures.mix[0] - density * 9.81 * circuit.lift
    drop = pull - (clean.pressures.bowl - clean.pressures.well[0])
    found = SET["blocked-bleed"].reference(given, {"jet-drop": drop})
    assert found == pytest.approx(float(blocked.ratio), rel=0.06)


def test_a_narrower_jet_leans_as_the_whole_carburettor_does() -> None:
    # Less fuel lets more air in at the bleeds, which pulls harder on the jet: the carburettor
    # loses a little less than the question says.
    clean = curb_idle(plover(), AIR, PETROL)
    bore = float(plover().low_speed.jet_bore)
    found = SET["gummed-jet"].reference(
        {"idle_ratio": float(clean.ratio), "jet_bore": bore, "gum": 0.03e-3}, {}
    )
    gummed = solve(plover(jet_bore=bore - 0.06e-3), AIR, PETROL, clean.speed, clean.throttle_angle)
    assert float(clean.ratio) < float(gummed.ratio) < found < 1.15 * float(gummed.ratio)


@each_sheet
def test_the_pump_pushes_as_the_physics_says(sheet: Sheet) -> None:
    found = seat_force(sheet.givens["supply_pressure"], sheet.givens["seat_bore"])
    assert sheet.answers["pump-push"] == pytest.approx(float(found), rel=1e-9)


def test_the_chamber_tells_a_narrow_economizer_from_blocked_bleeds() -> None:
    # First principles: what cannot get in by the economizer leaves the chamber emptier; a blocked
    # bleed sends fuel in the place of its air.
    clean = curb_idle(plover(), AIR, PETROL)

    def chamber(**changes: float) -> float:
        found = solve(plover(**changes), AIR, PETROL, clean.speed, clean.throttle_angle)
        return float(found.chamber_vacuum[0])

    narrow, blocked = chamber(economizer_bore=1.4e-3), chamber(air_bleed_bore=0.4e-3)
    assert narrow > 1.3 * chamber()
    assert blocked == pytest.approx(chamber(), rel=0.05)

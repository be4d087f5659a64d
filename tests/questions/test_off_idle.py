"""Unit 05: slot, air bleed and bleed valve against the physics and a textbook's nozzle."""

from dataclasses import replace
from math import pi, radians, sqrt

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.circuits.low_speed import LowSpeed, port_area
from fuelcircuits.physics.circuits.needle_valve import seat_force
from fuelcircuits.physics.circuits.off_idle import SlotAreas, slot_areas, valve_lift
from fuelcircuits.physics.matter.atmosphere import AIR_CONSTANT, Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network import solving as network
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.openings import gas_flow
from fuelmarks.questions import Exercise, Sheet, draw, load

from tests.flow_stand import on_flow_stand
from tests.places import COURSE_FOLDER
from tests.published.table import Row, rows

COURSE = COURSE_FOLDER
SET = load("05-off-idle")
SHEETS = [draw(SET, seed) for seed in range(12)]
PLOVER = read_rig(COURSE / "rigs" / "plover.toml")
ASKED_COEFFICIENT = 0.7


def circuit(sheet: Sheet) -> LowSpeed:
    """Return plover's low-speed circuit with the sheet's slot and valve."""
    given = sheet.givens
    assert PLOVER.low_speed is not None
    return replace(
        PLOVER.low_speed,
        slot_start=given["slot_foot"],
        slot_width=given["slot_width"],
        slot_height=given["slot_height"],
        plate_edge=given["plate_edge"],
        valve_bore=given["valve_seat"],
        valve_opening=given["opening_vacuum"],
        valve_range=sheet.answers["full-open-vacuum"] - given["opening_vacuum"],
    )


def areas(sheet: Sheet) -> SlotAreas:
    """Return the slot's two parts; a plate that is square when shut has a bore of two reaches."""
    return slot_areas(circuit(sheet), sheet.givens["plate_angle"], 2 * sheet.givens["plate_reach"])


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: f"seed-{sheet.seed}")
def test_the_area_below_the_edge_is_that_of_the_physics(sheet: Sheet) -> None:
    assert sheet.answers["area-below"] == pytest.approx(float(areas(sheet).below), rel=1e-6)


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: f"seed-{sheet.seed}")
def test_the_air_bled_in_is_near_that_of_a_compressible_flow(sheet: Sheet) -> None:
    given, temperature = sheet.givens, 293.15
    outside = given["air_density"] * AIR_CONSTANT * temperature
    open_area = ASKED_COEFFICIENT * float(areas(sheet).above)
    air = gas_flow.mass_flow(open_area, outside, outside - given["chamber_vacuum"], temperature)
    assert sheet.answers["bleed-air"] == pytest.approx(float(air), rel=0.02)


@pytest.mark.parametrize("angle", [14.5, 16.0, 17.0])
def test_choked_ports_share_as_their_areas_do_in_the_whole_carburettor(angle: float) -> None:
    low, point = PLOVER.low_speed, (1400 * 2 * pi / 60, radians(angle))
    assert low is not None
    state = network.solve(PLOVER, Weather.at(), Fuel(), *point)
    slot, screw = (
        stream.air[0] + stream.fuel[0] for stream in (state.flows.slot_below, state.flows.screw)
    )
    below = state.slot_below[0]
    open_area = below + port_area(low, low.screw_turns)
    assert below / open_area == pytest.approx(slot / (slot + screw), rel=0.01)


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: f"seed-{sheet.seed}")
def test_the_share_goes_by_area(sheet: Sheet) -> None:
    slot, screw = float(areas(sheet).below), sheet.givens["screw_area"]
    assert sheet.answers["slot-share"] == pytest.approx(slot / (slot + screw), rel=1e-6)


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: f"seed-{sheet.seed}")
def test_the_ball_is_held_by_the_force_of_the_physics(sheet: Sheet) -> None:
    given = sheet.givens
    force = float(seat_force(given["opening_vacuum"], given["valve_seat"]))
    assert sheet.answers["ball-force"] == pytest.approx(force, rel=1e-9)


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: f"seed-{sheet.seed}")
def test_the_valve_opens_and_meets_its_stop_where_the_sheet_says(sheet: Sheet) -> None:
    low, full = circuit(sheet), sheet.answers["full-open-vacuum"]
    assert valve_lift(low, sheet.givens["opening_vacuum"]) == 0
    assert valve_lift(low, 0.98 * full) < 1
    assert valve_lift(low, full) == pytest.approx(1)


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: f"seed-{sheet.seed}")
def test_the_valve_opens_where_the_trade_expects_it(sheet: Sheet) -> None:
    # 7 to 12 inches of water: common practice, no source
    assert 7 * 249.089 <= sheet.givens["opening_vacuum"] <= 12 * 249.089


@pytest.mark.parametrize(
    ("row", "back"),
    [(rows("2 nozzle choked", "back 0.4")[0].values[0], 0.4e6)],
)
def test_the_worked_example_is_the_textbooks(row: Row, back: float) -> None:
    at_rest = 873 + 150**2 / (2 * 1005)
    pressure = 1e6 * (at_rest / 873) ** 3.5
    assert back / pressure < 0.528
    assert 0.04042 * 50e-4 * pressure / sqrt(at_rest) == row.approx


def carboned(share: float, turns: float) -> Rig:
    """Return plover with a slot narrowed by carbon and the mixture screws set anew."""
    low = PLOVER.low_speed
    assert low is not None
    narrow = replace(low, slot_width=share * low.slot_width, screw_turns=turns)
    return replace(PLOVER, low_speed=narrow)


def test_the_story_is_true_a_carboned_slot_set_up_by_its_screw_has_a_hole_off_idle() -> None:
    clean, dirty = (
        [state.ratio for state in on_flow_stand(rig, Weather.at(), Fuel(), count=25)]
        for rig in (PLOVER, carboned(0.3, 1.2))
    )
    assert dirty[0] == pytest.approx(clean[0], rel=0.03)
    assert max(dirty[:8]) > 17 > max(clean)


@pytest.mark.parametrize("exercise", SET.exercises, ids=lambda exercise: exercise.id)
def test_a_question_shows_only_givens_that_exist(exercise: Exercise) -> None:
    assert "{" not in SHEETS[0].ask(exercise.ask)


@pytest.mark.parametrize(("ball", "sign"), [({"valve_most": 0.0}, -1), ({"valve_least": 0.2}, 1)])
def test_a_ball_stuck_shut_enriches_off_idle_and_one_ajar_leans_the_idle(
    ball: dict[str, float], sign: int
) -> None:
    # Common practice, no source: the first shows at a wide angle, the second at the stop.
    assert PLOVER.low_speed is not None
    stuck = replace(PLOVER, low_speed=replace(PLOVER.low_speed, **ball))
    angle = radians(20.0 if sign < 0 else 13.34)
    speed = (1600 if sign < 0 else 700) * 2 * pi / 60
    free, faulty = (
        float(network.solve(rig, Weather.at(), Fuel(), speed, angle).mixture)
        for rig in (PLOVER, stuck)
    )
    assert sign * (faulty - free) > 0.05

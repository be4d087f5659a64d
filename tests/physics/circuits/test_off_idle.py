"""Slot and bleed valve: against a drawing made point by point, and the trade's vacuums."""

from dataclasses import replace
from itertools import pairwise
from math import cos, pi, sin

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.circuits.low_speed import LowSpeed
from fuelcircuits.physics.circuits.off_idle import slot_areas, valve_lift
from fuelcircuits.physics.numerics.interpolation import linspace

from tests.places import RIGS

PLOVER = read_rig(RIGS / "plover.toml")
CIRCUIT: LowSpeed = PLOVER.low_speed
BORE, CLOSED = PLOVER.air_path.throttle_bore, PLOVER.air_path.throttle_closed_angle
HEIGHTS = [CIRCUIT.slot_start + CIRCUIT.slot_height * (i + 0.5) / 40_000 for i in range(40_000)]
WHOLE = CIRCUIT.slot_width * CIRCUIT.slot_height
INH2O = 249.08891  # Pa; NIST SP 811


@pytest.mark.parametrize("angle", [0.18, 0.22, 0.27, 0.33, 0.4, 0.8, 1.5])
def test_slot_is_what_a_drawing_of_the_plate_leaves_open(angle: float) -> None:
    """The plate's tip turns about the shaft; its edge hides its own thickness of the slot."""
    tip, half = BORE / 2 / cos(CLOSED) * sin(angle), CIRCUIT.plate_edge / 2
    below = sum(height < tip - half for height in HEIGHTS) / len(HEIGHTS)
    above = sum(height > tip + half for height in HEIGHTS) / len(HEIGHTS)
    corner = CIRCUIT.plate_edge / 16 / CIRCUIT.slot_height
    slot = slot_areas(CIRCUIT, angle, BORE, CLOSED)
    assert slot.below / WHOLE == pytest.approx(below, abs=corner + 1e-4)
    assert slot.above / WHOLE == pytest.approx(above, abs=corner + 1e-4)


def test_plate_uncovers_the_slot_below_it_and_covers_it_above() -> None:
    slots = [slot_areas(CIRCUIT, angle, BORE, CLOSED) for angle in linspace(CLOSED, pi / 2, 400)]
    for before, after in pairwise(slots):
        assert before.below <= after.below
        assert before.above >= after.above


def test_open_throttle_leaves_the_whole_slot_below() -> None:
    slot = slot_areas(CIRCUIT, pi / 2, BORE, CLOSED)
    assert slot.below == pytest.approx(WHOLE)
    assert slot.above == 0


def test_bleed_valve_leaves_its_seat_between_7_and_12_inches_of_water() -> None:
    """Common practice, no source."""
    assert valve_lift(CIRCUIT, 7 * INH2O) == 0
    assert valve_lift(CIRCUIT, 12 * INH2O) > 0


def test_bleed_valve_lifts_further_with_every_pascal() -> None:
    lifts = [valve_lift(CIRCUIT, 10.0 * step) for step in range(500)]
    assert all(before <= after for before, after in pairwise(lifts))
    assert lifts[-1] == 1


@pytest.mark.parametrize(("field", "stuck"), [("valve_least", 0.6), ("valve_most", 0.4)])
def test_stuck_valve_stays_where_it_sticks(field: str, stuck: float) -> None:
    valve = replace(CIRCUIT, **{field: stuck})
    at = 0.0 if field == "valve_least" else 1e5
    assert valve_lift(valve, at) == stuck

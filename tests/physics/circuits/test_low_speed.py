"""The low-speed circuit's geometry against drawings made point by point, and its variants."""

from dataclasses import replace

import numpy as np
import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.circuits.low_speed import (
    LowSpeed,
    idle_air_area,
    needle_area,
    port_area,
    rounded,
    slot_areas,
    turn,
    valve_area,
    valve_lift,
)
from fuelcircuits.physics.openings.two_phase import bore_area

from tests.places import RIGS

PLOVER = read_rig(RIGS / "plover.toml")
CIRCUIT: LowSpeed = PLOVER.low_speed
BORE, CLOSED = PLOVER.air_path.throttle_bore, PLOVER.air_path.throttle_closed_angle
ANGLES = np.linspace(CLOSED, np.pi / 2, 400)
AIR_SCREW = replace(CIRCUIT, screw_meters_air=1.0)
INH2O = 249.08891  # Pa; NIST SP 811


@pytest.mark.parametrize("angle", [0.18, 0.22, 0.27, 0.33, 0.4, 0.8, 1.5])
def test_slot_is_what_a_drawing_of_the_plate_leaves_open(angle: float) -> None:
    """The plate's tip turns about the shaft; its edge hides its own thickness of the slot."""
    tip = BORE / 2 / np.cos(CLOSED) * np.sin(angle)
    heights = CIRCUIT.slot_start + CIRCUIT.slot_height * (np.arange(40_000) + 0.5) / 40_000
    below = np.mean(heights < tip - CIRCUIT.plate_edge / 2)
    above = np.mean(heights > tip + CIRCUIT.plate_edge / 2)
    whole = float(np.asarray(CIRCUIT.slot_width * CIRCUIT.slot_height))
    corner = float(np.asarray(CIRCUIT.plate_edge)) / 16 / float(np.asarray(CIRCUIT.slot_height))
    slot = slot_areas(CIRCUIT, angle, BORE, CLOSED)
    assert slot.below / whole == pytest.approx(below, abs=corner + 1e-4)
    assert slot.above / whole == pytest.approx(above, abs=corner + 1e-4)


def test_plate_uncovers_the_slot_below_it_and_covers_it_above() -> None:
    slot = slot_areas(CIRCUIT, ANGLES, BORE, CLOSED)
    assert np.all(np.diff(slot.below) >= 0)
    assert np.all(np.diff(slot.above) <= 0)


def test_open_throttle_leaves_the_whole_slot_below() -> None:
    slot = slot_areas(CIRCUIT, np.pi / 2, BORE, CLOSED)
    assert slot.below == pytest.approx(CIRCUIT.slot_width * CIRCUIT.slot_height)
    assert slot.above == 0


@pytest.mark.parametrize("turns", [0.3, 1.0, 2.0, 3.0])
def test_ring_round_the_needle_is_the_smallest_cone_to_the_seat(turns: float) -> None:
    """Lateral area of the frustum from the seat's edge square to the needle's flank."""
    half, lift = CIRCUIT.needle_angle / 2, CIRCUIT.screw_pitch * turns
    gap = lift * np.sin(half)
    outer, inner = CIRCUIT.seat_bore / 2, CIRCUIT.seat_bore / 2 - gap * np.cos(half)
    ring, seat = np.pi * (outer + inner) * gap, bore_area(CIRCUIT.seat_bore)
    expected = 1 / np.sqrt(1 / ring**2 + 1 / seat**2)
    assert needle_area(CIRCUIT, turns) == pytest.approx(expected, rel=1e-12)


def test_screw_on_its_seat_is_shut() -> None:
    assert needle_area(CIRCUIT, 0.0) == 0


def test_needle_opens_with_every_turn_until_it_has_left_the_seat() -> None:
    opened = np.asarray(needle_area(CIRCUIT, np.linspace(0, 12, 200)))
    assert np.all(np.diff(opened) >= 0)
    assert opened[-1] <= bore_area(CIRCUIT.seat_bore)


def test_limiter_s_stops_hold_the_screw() -> None:
    capped = replace(CIRCUIT, fewest_turns=2.0, most_turns=2.75)
    assert turn(capped, 2.4, 5.0) == 2.0
    assert turn(capped, 2.4, -5.0) == 2.75


def test_sealed_screw_does_not_turn() -> None:
    sealed = replace(CIRCUIT, fewest_turns=CIRCUIT.screw_turns, most_turns=CIRCUIT.screw_turns)
    assert turn(sealed, sealed.screw_turns, -1.0) == sealed.screw_turns


def test_setting_outside_the_stops_is_refused() -> None:
    with pytest.raises(RangeError, match=r"stops 2 and 2\.75, got 3\.0"):
        replace(CIRCUIT, screw_turns=3.0, fewest_turns=2.0, most_turns=2.75)


def test_restrictor_limits_what_the_screw_can_open() -> None:
    fitted = replace(CIRCUIT, restrictor_bore=0.9e-3)
    assert port_area(fitted, 12.0) < bore_area(0.9e-3)
    assert port_area(fitted, 1.0) < port_area(CIRCUIT, 1.0)


def test_mixture_screw_turned_clockwise_goes_in_and_shuts() -> None:
    after = turn(CIRCUIT, 2.4, 0.5)
    assert after == pytest.approx(1.9)
    assert port_area(CIRCUIT, after) < port_area(CIRCUIT, 2.4)


def test_air_screw_turned_counter_clockwise_goes_in_and_shuts_air() -> None:
    """Left-hand thread (common practice, no source)."""
    after = turn(AIR_SCREW, 2.4, -0.5)
    assert after == pytest.approx(1.9)
    assert idle_air_area(AIR_SCREW, after) < idle_air_area(AIR_SCREW, 2.4)


def test_air_screw_leaves_the_port_alone() -> None:
    assert port_area(AIR_SCREW, 0.5) == port_area(AIR_SCREW, 2.5)


def test_mixture_screw_leaves_the_air_bleed_alone() -> None:
    assert idle_air_area(CIRCUIT, 0.5) == bore_area(CIRCUIT.air_bleed_bore)


def test_enrichment_shuts_its_share_of_the_idle_air() -> None:
    shut = idle_air_area(CIRCUIT, 2.4, 1.0) / bore_area(CIRCUIT.air_bleed_bore)
    assert shut == pytest.approx(1 - CIRCUIT.enrichment)


def test_bleed_valve_leaves_its_seat_between_7_and_12_inches_of_water() -> None:
    """Common practice, no source."""
    opens = np.linspace(0, 20 * INH2O, 2001)
    first = opens[np.argmax(np.asarray(valve_lift(CIRCUIT, opens)) > 0)]
    assert 7 * INH2O < first < 12 * INH2O


@pytest.mark.parametrize(("field", "stuck"), [("valve_least", 0.6), ("valve_most", 0.4)])
def test_stuck_valve_stays_where_it_sticks(field: str, stuck: float) -> None:
    valve = replace(CIRCUIT, **{field: stuck})
    at = 0.0 if field == "valve_least" else 1e5
    assert valve_lift(valve, at) == stuck
    assert valve_area(valve, at) == pytest.approx(stuck * bore_area(CIRCUIT.valve_bore))


def test_rounded_corner_meets_its_two_sides() -> None:
    value = np.array([-2.0, -1.0, 0.0, 1.0, 2.0])
    np.testing.assert_allclose(rounded(value, 1.0), [0, 0, 0.25, 1, 2])

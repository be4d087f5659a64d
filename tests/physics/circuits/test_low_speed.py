"""The mixture screw's geometry against a cone drawn out, and the screw's variants."""

from dataclasses import replace
from itertools import pairwise
from math import cos, pi, sin, sqrt

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.circuits.low_speed import (
    LowSpeed,
    idle_air_area,
    needle_area,
    port_area,
    turn,
)
from fuelcircuits.physics.openings.two_phase import bore_area

from tests.places import RIGS

CIRCUIT: LowSpeed = read_rig(RIGS / "plover.toml").low_speed
AIR_SCREW = replace(CIRCUIT, screw_meters_air=1.0)


@pytest.mark.parametrize("turns", [0.3, 1.0, 2.0, 3.0])
def test_ring_round_the_needle_is_the_smallest_cone_to_the_seat(turns: float) -> None:
    """Lateral area of the frustum from the seat's edge square to the needle's flank."""
    half, lift = CIRCUIT.needle_angle / 2, CIRCUIT.screw_pitch * turns
    gap = lift * sin(half)
    outer, inner = CIRCUIT.seat_bore / 2, CIRCUIT.seat_bore / 2 - gap * cos(half)
    ring, seat = pi * (outer + inner) * gap, bore_area(CIRCUIT.seat_bore)
    expected = 1 / sqrt(1 / ring**2 + 1 / seat**2)
    assert needle_area(CIRCUIT, turns) == pytest.approx(expected, rel=1e-12)


def test_screw_on_its_seat_is_shut() -> None:
    assert needle_area(CIRCUIT, 0.0) == 0


def test_needle_opens_with_every_turn_until_it_has_left_the_seat() -> None:
    opened = [needle_area(CIRCUIT, 0.06 * step) for step in range(201)]
    assert all(before <= after for before, after in pairwise(opened))
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

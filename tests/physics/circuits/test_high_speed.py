"""Level and bleed holes of the well, against a weir added up slice by slice."""

from dataclasses import replace
from itertools import pairwise
from math import sqrt

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.circuits.high_speed import (
    GRAVITY,
    HOLE_DISCHARGE,
    HighSpeed,
    hole_depths,
    hole_flow,
    level_drop,
)
from fuelcircuits.physics.numerics.interpolation import linspace
from fuelcircuits.physics.openings.two_phase import bore_area

from tests.places import RIGS

CIRCUIT: HighSpeed = read_rig(RIGS / "plover.toml").high_speed
FUEL, AIR = 740.0, 1.2
WEIGHT = FUEL * GRAVITY
SINGLE = replace(CIRCUIT, hole_count=1.0)


def holes(drop: float, circuit: HighSpeed = CIRCUIT) -> float:
    return hole_flow(circuit, WEIGHT * drop, 0.0, FUEL, AIR)


def test_level_in_the_tube_balances_its_pressure() -> None:
    assert level_drop(1e5 + WEIGHT * 0.01, 1e5, FUEL) == pytest.approx(0.01)


def test_holes_are_spread_from_first_to_last() -> None:
    depths = hole_depths(CIRCUIT)
    assert depths[0] == CIRCUIT.first_hole
    assert depths[-1] == CIRCUIT.last_hole
    assert len(depths) == CIRCUIT.hole_count


def test_covered_holes_pass_nothing() -> None:
    assert {holes(drop) for drop in linspace(-0.02, CIRCUIT.first_hole, 50)} == {0.0}


def test_each_hole_that_comes_clear_adds_to_the_bleed() -> None:
    """What flattens the mixture curve: the air grows faster than through a fixed hole."""
    more = [holes(drop) - holes(drop, SINGLE) for drop in linspace(0.0, 60e-3, 500)]
    assert all(after - before >= -1e-18 for before, after in pairwise(more))
    assert more[-1] > 3 * holes(60e-3, SINGLE)


def test_depths_at_hand_give_the_same_flow() -> None:
    whole = hole_flow(CIRCUIT, 200.0, 0.0, FUEL, AIR)
    assert hole_flow(CIRCUIT, 200.0, 0.0, FUEL, AIR, depths=hole_depths(CIRCUIT)) == whole > 0


@pytest.mark.parametrize("cover", [0.3e-3, 0.7e-3, 2e-3, 20e-3])
def test_hole_is_a_weir_while_the_surface_crosses_it(cover: float) -> None:
    """A slot as high as the bore and of the same area, added up in thin slices of its height."""
    bore, count = CIRCUIT.hole_bore, 20_000
    heads = [max(cover - bore * (i + 0.5) / count, 0.0) for i in range(count)]
    speed = sum(sqrt(2 * WEIGHT * head / AIR) for head in heads) / count
    expected = HOLE_DISCHARGE * bore_area(bore) * AIR * speed
    assert holes(CIRCUIT.first_hole + cover, SINGLE) == pytest.approx(expected, rel=1e-4)

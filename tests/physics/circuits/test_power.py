"""The metering rod: a spring against vacuum, and the ring it leaves in the jet."""

from dataclasses import replace
from itertools import pairwise
from math import pi

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.circuits.power import Power, jet_area, jet_gap, rod_diameter, rod_lift
from fuelcircuits.physics.numerics.interpolation import linspace

from tests.places import RIGS

ROD: Power = read_rig(RIGS / "dunlin.toml").power


def test_ring_is_what_the_rod_leaves_of_the_jet() -> None:
    assert jet_area(1.7e-3, 0.9e-3) == pytest.approx(pi / 4 * (1.7e-3**2 - 0.9e-3**2))


def test_empty_jet_is_its_bore() -> None:
    assert jet_area(1.7e-3, 0.0) == pytest.approx(pi / 4 * 1.7e-3**2)


def test_rod_thicker_than_the_jet_leaves_a_film() -> None:
    assert jet_gap(0.6e-3, 0.9e-3) == 10e-6
    assert 0 < jet_area(0.6e-3, 0.9e-3) < 0.04 * jet_area(0.6e-3, 0.0)


def test_spring_and_piston_balance_where_the_rod_floats() -> None:
    """Hooke's law and pressure times area."""
    lift = 0.4
    push = ROD.spring_force - ROD.spring_rate * ROD.travel * lift
    assert rod_lift(ROD, push / (pi / 4 * ROD.piston_bore**2)) == pytest.approx(lift)


def test_vacuum_pulls_the_rod_down_and_the_spring_lifts_it() -> None:
    assert rod_lift(ROD, 60e3) == 0
    assert rod_lift(ROD, 0.0) == 1
    lifts = [rod_lift(ROD, vacuum) for vacuum in linspace(0.0, 80e3, 400)]
    assert all(before >= after for before, after in pairwise(lifts))


def test_rod_has_its_three_steps() -> None:
    steps = (ROD.lean_step, ROD.middle_step, ROD.rich_step)
    for lift, step in zip((0.0, 0.5, 1.0), steps, strict=True):
        assert rod_diameter(ROD, lift) == pytest.approx(step)


def test_rod_of_two_steps_stays_at_its_second() -> None:
    two = replace(ROD, middle_step=ROD.rich_step)
    thickness = [rod_diameter(two, lift) for lift in (0.5, 0.8, 1.0)]
    assert thickness == pytest.approx([ROD.rich_step] * 3)


def test_rod_thins_smoothly_as_it_rises() -> None:
    thickness = [rod_diameter(ROD, lift) for lift in linspace(0.0, 1.0, 1001)]
    thinned = [before - after for before, after in pairwise(thickness)]
    assert min(thinned) >= -1e-18
    assert max(abs(after - before) for before, after in pairwise(thinned)) < 1e-7


@pytest.mark.parametrize(
    ("field", "value", "vacuum"), [("least_lift", 1.0, 7e4), ("most_lift", 0.0, 0.0)]
)
def test_stuck_rod_stays(field: str, value: float, vacuum: float) -> None:
    assert rod_lift(replace(ROD, **{field: value}), vacuum) == value


def test_rod_that_thickens_upward_is_refused() -> None:
    with pytest.raises(RangeError, match="rod steps must thin"):
        replace(ROD, middle_step=0.1e-3)

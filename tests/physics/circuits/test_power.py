"""The metering rod: a spring against vacuum, and the ring it leaves in the jet."""

from dataclasses import replace

import numpy as np
import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.circuits.power import Power, jet_area, jet_gap, rod_diameter, rod_lift

from tests.places import RIGS

ROD: Power = read_rig(RIGS / "dunlin.toml").power
LIFTS = np.linspace(0, 1, 1001)
VACUUMS = np.linspace(0, 80e3, 400)


def test_ring_is_what_the_rod_leaves_of_the_jet() -> None:
    assert jet_area(1.7e-3, 0.9e-3) == pytest.approx(np.pi / 4 * (1.7e-3**2 - 0.9e-3**2))


def test_empty_jet_is_its_bore() -> None:
    assert jet_area(1.7e-3, 0.0) == pytest.approx(np.pi / 4 * 1.7e-3**2)


def test_rod_thicker_than_the_jet_leaves_a_film() -> None:
    assert jet_gap(0.6e-3, 0.9e-3) == 10e-6
    assert 0 < jet_area(0.6e-3, 0.9e-3) < 0.04 * jet_area(0.6e-3, 0.0)


def test_spring_and_piston_balance_where_the_rod_floats() -> None:
    """Hooke's law and pressure times area."""
    lift = 0.4
    push = ROD.spring_force - ROD.spring_rate * ROD.travel * lift
    assert rod_lift(ROD, push / (np.pi / 4 * ROD.piston_bore**2)) == pytest.approx(lift)


def test_vacuum_pulls_the_rod_down_and_the_spring_lifts_it() -> None:
    assert rod_lift(ROD, 60e3) == 0
    assert rod_lift(ROD, 0.0) == 1
    assert np.all(np.diff(rod_lift(ROD, VACUUMS)) <= 0)


def test_rod_has_its_three_steps() -> None:
    steps = (ROD.lean_step, ROD.middle_step, ROD.rich_step)
    for lift, step in zip((0.0, 0.5, 1.0), steps, strict=True):
        assert rod_diameter(ROD, lift) == pytest.approx(step)


def test_rod_of_two_steps_stays_at_its_second() -> None:
    two = replace(ROD, middle_step=ROD.rich_step)
    thickness = np.asarray(rod_diameter(two, np.array([0.5, 0.8, 1.0])))
    np.testing.assert_allclose(thickness, np.full(3, ROD.rich_step))


def test_rod_thins_smoothly_as_it_rises() -> None:
    thickness = np.asarray(rod_diameter(ROD, LIFTS))
    assert np.all(np.diff(thickness) <= 1e-18)
    assert np.max(np.abs(np.diff(thickness, 2))) < 1e-7


@pytest.mark.parametrize(
    ("field", "value", "vacuum"), [("least_lift", 1.0, 7e4), ("most_lift", 0.0, 0.0)]
)
def test_stuck_rod_stays(field: str, value: float, vacuum: float) -> None:
    assert rod_lift(replace(ROD, **{field: value}), vacuum) == value


def test_rod_that_thickens_upward_is_refused() -> None:
    with pytest.raises(RangeError, match="rod steps must thin"):
        replace(ROD, middle_step=0.1e-3)

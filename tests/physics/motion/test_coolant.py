"""The coolant: exponentials by hand."""

from math import exp

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.motion.coolant import coolant, coolant_step

from tests.places import RIGS

SOAK = read_rig(RIGS / "plover.toml").hot_soak


def test_it_warms_up_exponentially() -> None:
    assert coolant(SOAK, 0.0, 263.15) == pytest.approx(263.15)
    warm = coolant(SOAK, SOAK.warm_up, 263.15)
    assert warm == pytest.approx(363 + (263.15 - 363) * exp(-1))


def test_steps_of_a_running_engine_add_up() -> None:
    half = coolant_step(SOAK, 263.15, 260.0, 50.0, running=True)
    assert coolant_step(SOAK, half, 260.0, 70.0, running=True) == pytest.approx(
        coolant(SOAK, 120.0, 263.15)
    )


def test_a_stopped_engine_cools_in_about_two_hours() -> None:
    # By hand: 110 kJ/K over 16 W/K.
    cooled = coolant_step(SOAK, 363.0, 293.0, 110e3 / 16, running=False)
    assert cooled == pytest.approx(293 + 70 * exp(-1))

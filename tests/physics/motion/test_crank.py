"""The crankshaft: what the road takes by hand, and a speed that ends where torque does."""

from math import exp

import pytest
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.motion.crank import NEUTRAL, Road, cold_friction, road, speed_step


def test_a_gear_brings_the_cars_mass_to_the_crankshaft() -> None:
    # By hand: 1500 kg at 0.31 m over 3.5.
    assert road(3.5).inertia == pytest.approx(1500 * (0.31 / 3.5) ** 2)
    assert road(12.0).inertia == pytest.approx(1.0, abs=0.01)


def test_a_hill_takes_its_share_of_the_weight() -> None:
    flat, steep = road(7.0), road(7.0, slope=0.1)
    assert steep.steady - flat.steady == pytest.approx(1500 * 9.80665 * 0.1 * 0.31 / 7)


def test_the_air_takes_the_square_of_the_speed() -> None:
    # By hand, at 25 m/s in top gear: 0.5 rho cd A v2 at the wheel.
    top, speed = road(3.5), 25 / 0.31 * 3.5
    rolling = top.torque(1e-9)
    drag = 0.5 * 1.2 * 0.45 * 2.0 * 25**2 * 0.31 / 3.5
    assert top.torque(speed) - rolling == pytest.approx(drag)


def test_neutral_takes_nothing_and_a_hill_does_not_turn_an_engine_that_stands() -> None:
    assert NEUTRAL.torque(100.0) == 0.0
    assert Road(steady=20.0).torque(0.0) == 0.0


def test_under_a_constant_torque_the_speed_rises_evenly() -> None:
    assert speed_step(80.0, 10.0, 0.0, 0.25, 0.5) == pytest.approx(80 + 10 / 0.25 * 0.5)


def test_a_torque_that_falls_with_speed_agrees_with_its_closed_form() -> None:
    speed, most, falls, inertia = 50.0, 30.0, 0.2, 0.25
    for _ in range(2000):
        speed = speed_step(speed, most - falls * (speed - 50), falls, inertia, 1e-3)
    assert speed == pytest.approx(50 + most / falls * (1 - exp(-falls * 2 / inertia)), rel=1e-3)


def test_a_long_step_ends_where_the_torque_is_nought() -> None:
    assert speed_step(50.0, 30.0, 0.2, 0.25, 1e6) == pytest.approx(50 + 30 / 0.2, rel=1e-4)


def test_an_engine_never_turns_backwards() -> None:
    assert speed_step(5.0, -60.0, 0.0, 0.25, 0.1) == 0.0


def test_cold_oil_doubles_the_friction_every_sixty_degrees() -> None:
    assert cold_friction(363.15) == cold_friction(380.0) == 1.0
    assert cold_friction(283.15) == pytest.approx(2.0)
    assert cold_friction(243.15) == pytest.approx(2.0**1.5)


def test_no_gear_is_refused() -> None:
    with pytest.raises(RangeError, match="gear must be positive"):
        road(0.0)

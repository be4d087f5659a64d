"""Cleaner, choke, throttle and leak, one at a time."""

import dataclasses
from math import pi

import numpy as np
import pytest
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.engine.air_path import (
    choke_area,
    choke_pressure,
    horn_pressure,
    manifold_leak,
    throttle_area,
    throttle_flow,
)
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.numerics.interpolation import linspace
from fuelcircuits.physics.openings.plate import OPEN, open_area

from tests.physics.engine.test_venturi import PATH, SEA


@pytest.mark.parametrize("flow", [0.02, 0.04, 0.08])
def test_cleaner_loses_as_the_square_of_the_flow(flow: float) -> None:
    # Bernoulli with the outside density: 2 dp rho = (m / A)^2.
    loss = SEA.pressure - horn_pressure(PATH, SEA, flow)
    assert loss == pytest.approx((flow / 2.6e-3) ** 2 / (2 * 1.225), rel=0.01)


def test_open_choke_costs_a_fifth_of_a_velocity_head() -> None:
    # A thin plate on edge: common practice, no source.
    horn = pi / 4 * PATH.horn_bore**2
    head = (0.05 / horn) ** 2 / (2 * SEA.density)
    lost = SEA.pressure - choke_pressure(PATH, SEA.pressure, 0.05, SEA)
    assert 0.1 < lost / head < 0.25


@pytest.mark.parametrize("angle", [0.0, 0.5, 1.0, OPEN])
def test_choke_loses_what_an_enlargement_does(angle: float) -> None:
    # Borda and Carnot: the head of the difference of two velocities, in jet and horn.
    horn = pi / 4 * PATH.horn_bore**2
    clear = open_area(PATH.horn_bore, PATH.choke_shaft, PATH.choke_closed_angle, angle)
    jet = PATH.horn_discharge * (clear + PATH.choke_leak)
    lost = 0.5 * SEA.density * (1 / jet - 1 / horn) ** 2
    assert 0.5 * SEA.density / choke_area(PATH, angle) ** 2 == pytest.approx(lost, rel=1e-12)


def test_shut_choke_leaves_its_slots() -> None:
    assert choke_area(PATH, 0.0) == pytest.approx(0.8 * 40e-6, rel=0.02)


def test_choke_opens_steadily() -> None:
    areas = [choke_area(PATH, angle) for angle in linspace(0.2, 1.4, 50)]
    assert np.all(np.diff(areas) > 0)


def test_both_throttles_count() -> None:
    single = open_area(32.5e-3, 7.9e-3, 0.17, 0.6)
    assert throttle_area(PATH, 0.6) == pytest.approx(2 * 0.85 * (single + 1e-6))


def test_throttle_passes_a_choked_flow_below_half_the_pressure() -> None:
    # 0.04042 kg.K^0.5/(s.m2.Pa): gas-dynamics identity, R = 287.0.
    flow = throttle_flow(PATH, 0.3, SEA.pressure, 40e3, SEA)
    expected = 0.04042 * throttle_area(PATH, 0.3) * 101_325 / 288.15**0.5
    assert flow == pytest.approx(expected, rel=5e-4)


def test_throttle_flow_turns_round() -> None:
    assert throttle_flow(PATH, OPEN, 90e3, 95e3, SEA) < 0


def test_tight_manifold_does_not_leak() -> None:
    assert manifold_leak(PATH, 40e3, SEA) == 0.0


def test_leak_is_a_choked_opening() -> None:
    leaky = dataclasses.replace(PATH, manifold_leak=2e-6)
    expected = 0.04042 * 2e-6 * 101_325 / 288.15**0.5
    assert manifold_leak(leaky, 40e3, SEA) == pytest.approx(expected, rel=5e-4)


def test_thin_air_loses_more_for_the_same_flow() -> None:
    high = Weather.at(3000.0)
    low_loss = SEA.pressure - horn_pressure(PATH, SEA, 0.05)
    assert high.pressure - horn_pressure(PATH, high, 0.05) > low_loss


def test_bore_of_no_carburettor_is_refused() -> None:
    with pytest.raises(RangeError, match="throttle bore must be between"):
        dataclasses.replace(PATH, throttle_bore=0.3)

"""Thermostat coil: against layered-beam equilibrium and a metal's table value."""

import numpy as np
import pytest
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.circuits.bimetal import coil_rotation, coil_stiffness, flexivity


@pytest.mark.parametrize(("m", "n"), [(1.0, 1.0), (1.0, 0.8), (0.5, 1.3), (2.0, 0.6)])
def test_the_flexivity_is_that_of_two_layers_in_equilibrium(m: float, n: float) -> None:
    # First principles, by another way: no force and no moment over a section of two layers.
    thickness, low, high = 1.0, 1.2e-6, 19e-6
    cut = m / (1 + m) * thickness  # the low-expansion layer lies below
    layers = [(0.0, cut, n, low), (cut, thickness, 1.0, high)]
    matrix = np.zeros((2, 2))
    thermal = np.zeros(2)
    for bottom, top, modulus, expansion in layers:
        moments = [modulus * (top**k - bottom**k) / k for k in (1, 2, 3)]
        matrix += [[moments[0], moments[1]], [moments[1], moments[2]]]
        thermal += expansion * np.array(moments[:2])
    curvature = np.linalg.solve(matrix, thermal)[1]
    assert flexivity(low, high, m, n) == pytest.approx(curvature * thickness, rel=1e-10)


def test_two_like_layers_give_three_halves_of_the_difference() -> None:
    # Timoshenko 1925, the case m = n = 1.
    assert flexivity(1e-6, 19e-6) == pytest.approx(1.5 * 18e-6)


def test_the_common_high_flexivity_metal_comes_out_near_its_table_value() -> None:
    # TB 1577 of DIN 1715: 28.5e-6 1/K within 5 %; iron with 36 % of nickel expands by 1.2e-6 1/K,
    # its partner by about 20e-6 1/K (all from memory).
    assert flexivity(1.2e-6, 20e-6) == pytest.approx(28.5e-6, rel=0.05)


def test_a_coil_turns_by_its_change_of_curvature_times_its_length() -> None:
    # ASTM B106: change of curvature is F dT / t; 0.4 m of 0.6 mm strip over 60 K.
    radius_change = 26e-6 * 60 / 0.6e-3
    assert coil_rotation(26e-6, 0.4, 0.6e-3, 60.0) == pytest.approx(radius_change * 0.4)


def test_a_coil_pushes_like_a_beam_under_a_constant_moment() -> None:
    # E I / L of a rectangle, I = b t^3 / 12.
    inertia = 6e-3 * 0.6e-3**3 / 12
    assert coil_stiffness(170e9, 6e-3, 0.6e-3, 0.4) == pytest.approx(170e9 * inertia / 0.4)


def test_a_strip_without_thickness_is_refused() -> None:
    with pytest.raises(RangeError, match="thickness must be positive"):
        coil_rotation(26e-6, 0.4, 0.0, 10.0)

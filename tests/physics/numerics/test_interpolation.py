"""Numbers between those of a table: against NumPy."""

from math import isnan, nan

import numpy as np
import pytest
from fuelcircuits.physics.numerics.interpolation import interpolate, linspace, nearest

PLACES = [-1.0, 0.0, 0.5, 0.5, 2.0]
VALUES = [3.0, 1.0, 2.0, 7.0, -4.0]


@pytest.mark.parametrize("x", [-9.0, -1.0, -0.3, 0.0, 0.4999, 0.5, 0.6, 1.999, 2.0, 8.0])
def test_interpolation_agrees_with_numpy_also_at_a_jump(x: float) -> None:
    assert interpolate(x, PLACES, VALUES) == pytest.approx(
        float(np.interp(x, PLACES, VALUES)), rel=1e-14
    )


def test_what_is_not_a_number_stays_so() -> None:
    assert isnan(interpolate(nan, PLACES, VALUES))


@pytest.mark.parametrize(("low", "high", "count"), [(0.1, 3.7, 57), (2.0, -1.0, 2), (0.0, 1.0, 11)])
def test_linspace_agrees_with_numpy_to_the_last_digit(low: float, high: float, count: int) -> None:
    assert linspace(low, high, count) == np.linspace(low, high, count).tolist()


@pytest.mark.parametrize(("value", "place"), [(-5.0, 0), (0.24, 1), (0.25, 1), (0.4, 2), (9.0, 4)])
def test_the_nearest_is_the_first_of_equals(value: float, place: int) -> None:
    assert nearest(value, PLACES) == place

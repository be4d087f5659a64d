"""Rounded corners: where they meet the straight lines, and that they have a slope there."""

from collections.abc import Callable
from itertools import pairwise

import pytest
from fuelcircuits.physics.numerics.corners import rounded, smooth_step
from fuelcircuits.physics.numerics.interpolation import linspace


@pytest.mark.parametrize(
    ("value", "expected"), [(-2.0, 0.0), (-1.0, 0.0), (0.0, 0.25), (1.0, 1.0), (2.0, 2.0)]
)
def test_rounded_corner_meets_its_two_sides(value: float, expected: float) -> None:
    assert rounded(value, 1.0) == expected


@pytest.mark.parametrize(("value", "expected"), [(-1e-9, 0.0), (0.0, 0.0), (1e-9, 1e-9)])
def test_a_corner_of_no_width_is_sharp(value: float, expected: float) -> None:
    assert rounded(value, 0.0) == expected


@pytest.mark.parametrize(
    ("stage", "expected"), [(-1.0, 0.0), (0.0, 0.0), (0.5, 0.5), (1.0, 1.0), (3.0, 1.0)]
)
def test_step_rises_from_nought_to_one(stage: float, expected: float) -> None:
    assert smooth_step(stage) == expected


@pytest.mark.parametrize("function", [smooth_step, lambda x: rounded(x, 0.3)])
def test_slope_never_jumps(function: Callable[[float], float]) -> None:
    values = [function(x) for x in linspace(-1.0, 2.0, 3001)]
    rises = [after - before for before, after in pairwise(values)]
    assert max(abs(after - before) for before, after in pairwise(rises)) < 7e-6
    assert min(rises) >= 0

"""Starts from solved neighbours."""

import itertools

import numpy as np
from fuelcircuits.physics.network.neighbours import between_solved, coarse_to_fine


def test_groups_grow_to_every_point_with_both_ends_in_each() -> None:
    groups = coarse_to_fine(50)
    assert list(groups[0]) == [0, 16, 32, 48, 49]
    assert list(groups[-1]) == list(range(50))
    assert all(set(small) <= set(large) for small, large in itertools.pairwise(groups))


def test_start_lies_on_the_straight_line_between_solved_points() -> None:
    """numpy.interp does the same for one unknown."""
    values, solved = np.array([[3.0, 0.0, 0.0, 9.0, 0.0]]), np.array([1, 0, 0, 1, 0], dtype=bool)
    start = between_solved(values, solved, np.arange(5))
    np.testing.assert_allclose(start[0], np.interp(np.arange(5), [0, 3], [3.0, 9.0]))

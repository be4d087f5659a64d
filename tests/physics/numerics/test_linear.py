"""Linear equations: against NumPy over random systems, and what cannot be solved."""

import numpy as np
import pytest
from fuelcircuits.errors import ConvergenceError
from fuelcircuits.physics.numerics.linear import dot, inverse, log_determinant, solve


@pytest.mark.parametrize("count", [1, 2, 3, 9])
def test_solve_and_inverse_agree_with_numpy(count: int) -> None:
    random = np.random.default_rng(count)
    for _ in range(20):
        matrix, right = random.normal(size=(count, count)), random.normal(size=count)
        spread = np.linalg.cond(matrix)
        found = solve(matrix.tolist(), right.tolist())
        truth = np.linalg.solve(matrix, right)
        assert np.linalg.norm(found - truth) < 1e-13 * spread * np.linalg.norm(truth)
        turned, reverse = inverse(matrix.tolist()), np.linalg.inv(matrix)
        assert np.linalg.norm(turned - reverse) < 1e-13 * spread * np.linalg.norm(reverse)


def test_a_nought_on_the_diagonal_is_exchanged() -> None:
    assert solve([[0.0, 2.0], [4.0, 1.0]], [6.0, 7.0]) == [1.0, 3.0]
    assert inverse([[0.0, 2.0], [4.0, 0.0]]) == [[0.0, 0.25], [0.5, 0.0]]


def test_what_is_given_stays_as_it_was() -> None:
    matrix, right = [[1.0, 2.0], [3.0, 4.0]], [5.0, 6.0]
    solve(matrix, right)
    inverse(matrix)
    assert (matrix, right) == ([[1.0, 2.0], [3.0, 4.0]], [5.0, 6.0])


@pytest.mark.parametrize("last", [4.0, float("nan")])
def test_equations_that_do_not_settle_the_unknowns_are_refused(last: float) -> None:
    with pytest.raises(ConvergenceError, match="equations must be independent, got pivot"):
        solve([[1.0, 2.0], [2.0, last]], [1.0, 1.0])


@pytest.mark.parametrize("count", [0, 1, 2, 9])
def test_the_determinant_s_logarithm_agrees_with_numpy(count: int) -> None:
    root = np.random.default_rng(count).normal(size=(count, count + 3))
    matrix = root @ root.T
    assert log_determinant(matrix.tolist()) == pytest.approx(np.linalg.slogdet(matrix)[1], abs=1e-9)


@pytest.mark.parametrize("last", [4.0, 1.0, float("nan")])
def test_a_matrix_that_is_no_covariance_has_no_such_logarithm(last: float) -> None:
    with pytest.raises(ConvergenceError, match="matrix must be positive definite, got pivot"):
        log_determinant([[1.0, 2.0], [2.0, last]])


def test_dot_sums_products() -> None:
    assert dot([1.0, 2.0, 3.0], [4.0, 5.0, 6.0]) == 32.0

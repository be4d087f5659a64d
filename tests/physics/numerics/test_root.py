"""Roots of balances: against roots known in closed form and against scipy."""

import numpy as np
import pytest
from fuelcircuits.errors import ConvergenceError
from fuelcircuits.physics.numerics.root import root
from numpy.typing import NDArray
from scipy import optimize

NUMBERS = np.array([1e-6, 0.3, 2.0, 7.0, 1e6])


def test_the_square_root_comes_back_for_each_element() -> None:
    found = root(lambda x: x**2 - NUMBERS, 0.0, 1e4)
    np.testing.assert_allclose(found, np.sqrt(NUMBERS), rtol=1e-12)


def test_it_agrees_with_scipy_on_a_transcendental_balance() -> None:
    found = root(lambda x: np.cos(x) - x, 0.0, 1.0)
    assert found == pytest.approx(optimize.brentq(lambda x: np.cos(x) - x, 0, 1), abs=1e-12)


@pytest.mark.parametrize("power", [0.2, 1, 5, 9])
def test_flat_and_steep_balances_are_found_alike(power: float) -> None:
    def steep(x: NDArray[np.float64]) -> NDArray[np.float64]:
        return np.asarray(np.sign(x - 0.7) * np.abs(x - 0.7) ** power)

    np.testing.assert_allclose(root(steep, [0.0, -3.0], [1.0, 9.0]), 0.7, rtol=1e-9)


def test_a_root_at_the_end_of_the_bracket_counts() -> None:
    assert root(lambda x: x - 1.0, 1.0, 2.0) == pytest.approx(1.0, abs=1e-12)


@pytest.mark.parametrize(("low", "high"), [(1.0, 2.0), (np.nan, 2.0)])
def test_a_bracket_without_a_change_of_sign_is_refused_by_name(low: float, high: float) -> None:
    with pytest.raises(ConvergenceError, match="needle lift must make the balance nought"):
        root(lambda x: x + 1.0, low, high, name="needle lift")


def test_running_out_of_steps_is_refused() -> None:
    with pytest.raises(ConvergenceError, match="within 3 steps"):
        root(lambda x: x**3 - 0.1, 0.0, 1.0, steps=3)

"""Roots of balances: against roots known in closed form and against scipy."""

from math import copysign, cos, nan, sqrt

import pytest
from fuelcircuits.errors import ConvergenceError
from fuelcircuits.physics.numerics.root import root
from scipy import optimize


@pytest.mark.parametrize("number", [1e-6, 0.3, 2.0, 7.0, 1e6])
def test_the_square_root_comes_back(number: float) -> None:
    assert root(lambda x: x**2 - number, 0.0, 1e4) == pytest.approx(sqrt(number), rel=1e-12)


def test_it_agrees_with_scipy_on_a_transcendental_balance() -> None:
    found = root(lambda x: cos(x) - x, 0.0, 1.0)
    assert found == pytest.approx(optimize.brentq(lambda x: cos(x) - x, 0, 1), abs=1e-12)


@pytest.mark.parametrize("power", [0.2, 1, 5, 9])
@pytest.mark.parametrize(("low", "high"), [(0.0, 1.0), (-3.0, 9.0)])
def test_flat_and_steep_balances_are_found_alike(power: float, low: float, high: float) -> None:
    def steep(x: float) -> float:
        return copysign(abs(x - 0.7) ** power, x - 0.7)

    assert root(steep, low, high) == pytest.approx(0.7, rel=1e-9)


@pytest.mark.parametrize(("low", "high"), [(1.0, 2.0), (-1.0, 1.0)])
def test_a_root_at_the_end_of_the_bracket_counts(low: float, high: float) -> None:
    assert root(lambda x: x - 1.0, low, high) == pytest.approx(1.0, abs=1e-12)


@pytest.mark.parametrize(("low", "high"), [(1.0, 2.0), (nan, 2.0)])
def test_a_bracket_without_a_change_of_sign_is_refused_by_name(low: float, high: float) -> None:
    with pytest.raises(ConvergenceError, match="needle lift must make the balance nought"):
        root(lambda x: x + 1.0, low, high, name="needle lift")


def test_running_out_of_steps_is_refused() -> None:
    with pytest.raises(ConvergenceError, match="within 3 steps"):
        root(lambda x: x**3 - 0.1, 0.0, 1.0, steps=3)

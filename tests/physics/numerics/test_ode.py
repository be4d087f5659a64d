"""Integration in time: against closed forms and scipy at tight tolerance."""

import numpy as np
import pytest
from fuelcircuits.errors import ConvergenceError, RangeError
from fuelcircuits.physics.numerics.ode import integrate
from numpy.typing import NDArray
from scipy.integrate import solve_ivp

Floats = NDArray[np.float64]
TIMES = np.linspace(0.0, 10.0, 41)


def test_decay_follows_the_exponential_for_many_runs_at_once() -> None:
    rates = np.array([0.1, 1.0, 20.0])
    found = integrate(lambda t, x: -rates * x, np.ones(3), TIMES, relative=1e-9)
    np.testing.assert_allclose(found, np.exp(-rates * TIMES[:, None]), rtol=1e-6, atol=1e-11)


def test_a_pendulum_with_large_swing_agrees_with_scipy() -> None:
    def swing(t: float, x: Floats) -> Floats:
        return np.array([x[1], -np.sin(x[0]) - 0.05 * x[1] + 0.3 * np.cos(1.7 * t)])

    theirs = solve_ivp(swing, (0, 10), [2.0, 0.0], "DOP853", TIMES, rtol=1e-12, atol=1e-12).y.T
    np.testing.assert_allclose(integrate(swing, [2.0, 0.0], TIMES, relative=1e-10), theirs, 1e-7)


def test_an_input_may_have_a_corner_on_an_output_time() -> None:
    found = integrate(lambda t, x: np.full(1, max(t - 5.0, 0.0)), [0.0], TIMES)
    assert found[-1, 0] == pytest.approx(12.5, rel=1e-12)


def test_a_tighter_tolerance_gives_a_smaller_error() -> None:
    errors = [
        abs(integrate(lambda t, x: x * np.cos(t), [1.0], TIMES, relative=r)[-1, 0] / truth - 1)
        for r in (1e-4, 1e-7, 1e-10)
        for truth in [np.exp(np.sin(10.0))]
    ]
    assert errors[0] > errors[1] > errors[2]


def test_times_must_rise() -> None:
    with pytest.raises(RangeError, match="times must rise"):
        integrate(lambda t, x: x, [1.0], [0.0, 1.0, 1.0])


@pytest.mark.parametrize("power", [2, 3])
def test_a_state_that_runs_away_is_refused_by_name(power: int) -> None:
    with (
        np.errstate(over="ignore", invalid="ignore"),
        pytest.raises(ConvergenceError, match="level must change at a finite rate"),
    ):
        integrate(lambda t, x: x**power, [1.0], [0.0, 5.0], name="level")

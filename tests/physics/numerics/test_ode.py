"""Integration in time: against closed forms and scipy at tight tolerance."""

from collections.abc import Callable
from math import cos, exp, sin

import numpy as np
import pytest
from fuelcircuits.errors import ConvergenceError, RangeError
from fuelcircuits.physics.numerics.interpolation import linspace
from fuelcircuits.physics.numerics.ode import integrate
from scipy.integrate import solve_ivp

Grown = Callable[[float], float]
TIMES = linspace(0.0, 10.0, 41)


def test_decay_follows_the_exponential_in_every_element() -> None:
    rates = [0.1, 1.0, 20.0]
    found = integrate(
        lambda t, x: [-k * y for k, y in zip(rates, x, strict=True)],
        [1.0] * 3,
        TIMES,
        relative=1e-9,
    )
    truth = [[exp(-k * t) for k in rates] for t in TIMES]
    np.testing.assert_allclose(found, truth, rtol=1e-6, atol=1e-11)


def test_a_pendulum_with_large_swing_agrees_with_scipy() -> None:
    def swing(t: float, x: list[float]) -> list[float]:
        return [x[1], -sin(x[0]) - 0.05 * x[1] + 0.3 * cos(1.7 * t)]

    theirs = solve_ivp(swing, (0, 10), [2.0, 0.0], "DOP853", TIMES, rtol=1e-12, atol=1e-12).y.T
    np.testing.assert_allclose(integrate(swing, [2.0, 0.0], TIMES, relative=1e-10), theirs, 1e-7)


def test_an_input_may_have_a_corner_on_an_output_time() -> None:
    found = integrate(lambda t, x: [max(t - 5.0, 0.0)], [0.0], TIMES)
    assert found[-1][0] == pytest.approx(12.5, rel=1e-12)


def test_a_tighter_tolerance_gives_a_smaller_error() -> None:
    truth = exp(sin(10.0))
    errors = [
        abs(integrate(lambda t, x: [x[0] * cos(t)], [1.0], TIMES, relative=r)[-1][0] / truth - 1)
        for r in (1e-4, 1e-7, 1e-10)
    ]
    assert errors[0] > errors[1] > errors[2]


def test_each_element_may_have_its_own_error() -> None:
    def error(fine: float) -> float:
        found = integrate(
            lambda t, x: [-x[0], cos(20 * t)], [0.0, 0.0], TIMES, relative=0.0, absolute=[1.0, fine]
        )
        return abs(found[-1][1] - sin(200.0) / 20)

    assert error(1e-8) < 1e-7 < error(1e-2)


def test_times_must_rise() -> None:
    with pytest.raises(RangeError, match="times must rise"):
        integrate(lambda t, x: x, [1.0], [0.0, 1.0, 1.0])


@pytest.mark.parametrize("grown", [lambda x: x * x, lambda x: x * x * x])
def test_a_state_that_runs_away_is_refused_by_name(grown: Grown) -> None:
    with pytest.raises(ConvergenceError, match="level must change at a finite rate"):
        integrate(lambda t, x: [grown(x[0])], [1.0], [0.0, 5.0], name="level")

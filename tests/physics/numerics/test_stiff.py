"""Implicit integration: against closed forms and scipy at tight tolerance."""

from math import cos, exp, nan, sin

import numpy as np
import pytest
from fuelcircuits.errors import ConvergenceError, RangeError
from fuelcircuits.physics.numerics.interpolation import linspace
from fuelcircuits.physics.numerics.stiff import integrate_stiff
from scipy.integrate import solve_ivp

TIMES = linspace(0.0, 2.0, 9)


def test_a_fast_part_follows_a_slow_drive() -> None:
    # Closed form: y' = -k (y - cos t), here after the first settling is over.
    fast = 1e6
    found = integrate_stiff(lambda t, y: [-fast * (y[0] - cos(t))], [1.0], TIMES, absolute=[1e-9])
    truth = [[(fast**2 * cos(t) + fast * sin(t)) / (fast**2 + 1)] for t in TIMES]
    np.testing.assert_allclose(found[1:], truth[1:], atol=1e-6)


def test_robertsons_reaction_agrees_with_scipy() -> None:
    def react(t: float, y: list[float]) -> list[float]:
        one, two = 0.04 * y[0] - 1e4 * y[1] * y[2], 3e7 * y[1] ** 2
        return [-one, one - two, two]

    times = [0.0, 0.4, 4.0, 40.0, 400.0]
    theirs = solve_ivp(react, (0, 400), [1, 0, 0], "Radau", times, rtol=1e-10, atol=1e-14).y.T
    ours = integrate_stiff(react, [1.0, 0.0, 0.0], times, relative=1e-8, absolute=[1e-11] * 3)
    np.testing.assert_allclose(ours, theirs, rtol=2e-5, atol=1e-10)


def test_the_error_falls_with_the_third_power_of_the_step() -> None:
    # The estimate is of second order: a thousandth of the tolerance takes ten times the steps,
    # and those cut the error by about a thousand.
    def error(relative: float) -> float:
        found = integrate_stiff(
            lambda t, y: [y[0] * cos(t)], [1.0], [0.0, 2.0], relative=relative, absolute=[0.0]
        )
        return abs(found[-1][0] / exp(sin(2.0)) - 1)

    errors = [error(relative) for relative in (1e-3, 1e-6, 1e-9)]
    assert errors[1] < 1e-2 * errors[0]
    assert errors[2] < 1e-2 * errors[1]


@pytest.mark.parametrize("pace", [1.0, 300.0])
def test_states_that_move_together_follow_the_closed_form(pace: float) -> None:
    found = integrate_stiff(
        lambda t, y: [-pace * (y[0] - t), y[0]], [1.0, 1.0], TIMES, absolute=[1e-9, 1e-9]
    )
    settled = [t - 1 / pace + (1 + 1 / pace) * exp(-pace * t) for t in TIMES]
    gathered = [
        1 + t**2 / 2 - t / pace + (1 + 1 / pace) * (1 - exp(-pace * t)) / pace for t in TIMES
    ]
    np.testing.assert_allclose(found, np.transpose([settled, gathered]), atol=2e-5)


def test_times_must_rise() -> None:
    with pytest.raises(RangeError, match="times must rise"):
        integrate_stiff(lambda t, y: y, [1.0], [0.0, 0.0], absolute=[1e-9])


def test_a_rate_that_is_not_a_number_is_refused_by_name() -> None:
    with pytest.raises(ConvergenceError, match="plunger must change at a finite rate"):
        integrate_stiff(
            lambda t, y: [nan if y[0] > 2 else y[0]],
            [1.0],
            [0.0, 5.0],
            absolute=[1e-9],
            name="plunger",
        )

"""The charge in the manifold: against a closed form and scipy, and fuel that must not get lost."""

import numpy as np
import pytest
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.motion.charge import Charge, charge
from numpy.typing import NDArray
from scipy.integrate import solve_ivp

Floats = NDArray[np.float64]
AIR, TAKEN, BEFORE, AFTER = 1.2e-3, 12e-3, 0.4e-3, 1.0e-3  # kg, kg/s of air, kg/s of fuel


def stepped(count: int) -> tuple[Floats, Charge]:
    """Fuel that steps up from one flow to another."""
    times = np.linspace(0.0, 0.5, count)
    arrived = (AFTER * times).tolist()
    return times, charge(times.tolist(), arrived, [AIR] * count, [TAKEN] * count, BEFORE)


def test_a_step_of_fuel_arrives_with_the_time_that_the_air_stays() -> None:
    # Closed form: one well-mixed vessel, time constant air over flow, a tenth of a second.
    times, run = stepped(5001)
    exact = AFTER + (BEFORE - AFTER) * np.exp(-times * TAKEN / AIR)
    np.testing.assert_allclose(run.to_cylinder, exact, rtol=1e-3)


def test_air_that_comes_and_goes_agrees_with_scipy() -> None:
    times = np.linspace(0.0, 0.5, 5001)

    def air(now: float | Floats) -> Floats:
        return np.asarray(AIR * (1 - 0.6 * np.exp(-np.asarray(now) / 0.05)))

    def rate(now: float, fuel: Floats) -> Floats:
        return np.asarray(AFTER - fuel * TAKEN / air(now))

    rows = (times.tolist(), (AFTER * times).tolist(), air(times).tolist())
    ours = charge(*rows, [TAKEN] * len(times), BEFORE)
    theirs = solve_ivp(rate, (0, 0.5), ours.fuel[:1], t_eval=times, rtol=1e-9, atol=1e-15)
    np.testing.assert_allclose(ours.fuel, theirs.y[0], rtol=2e-3)


@pytest.mark.parametrize("count", [2, 11, 501])
def test_fuel_arrived_is_fuel_drawn_in_and_grown(count: int) -> None:
    times, run = stepped(count)
    grown = np.array(run.fuel) - run.fuel[0]
    np.testing.assert_allclose(run.drawn + grown, AFTER * times, atol=1e-15)


def test_an_engine_that_takes_nothing_leaves_the_fuel_where_it_is() -> None:
    still = charge([0.0, 1.0], [0.0, 1e-4], [AIR, AIR], [TAKEN, -1e-3], BEFORE)
    assert still.fuel[1] - still.fuel[0] == pytest.approx(1e-4, rel=1e-3)


def test_times_that_do_not_rise_are_refused() -> None:
    with pytest.raises(RangeError, match="times must rise"):
        charge([0.0, 0.0], [0.0, 0.0], [AIR, AIR], [TAKEN, TAKEN], BEFORE)

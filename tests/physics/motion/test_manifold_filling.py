"""A filling manifold: against scipy, and air that must not get lost."""

from functools import cache

import numpy as np
import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.engine.engine import air_demand
from fuelcircuits.physics.motion.manifold_filling import (
    Demand,
    advanced,
    filled,
    held_air,
    hold,
    with_filling,
)
from fuelcircuits.physics.openings.gas_flow import mass_flow
from numpy.typing import NDArray
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from tests.places import RIGS

Floats = NDArray[np.float64]
ENGINE = read_rig(RIGS / "plover.toml").engine
OUTSIDE, WARM, SPEED, SHUT, OPEN = 101325.0, 323.15, 80.0, 20e-6, 600e-6
HELD = held_air(ENGINE, WARM)
LOSS = -float(air_demand(ENGINE, SPEED, 0.0, WARM, OUTSIDE))
RATE = float(air_demand(ENGINE, SPEED, 1e5, WARM, OUTSIDE) + LOSS) / 1e5


def area(now: float | Floats) -> Floats:
    """A plate that opens from shut to open within 40 ms."""
    return np.asarray(np.interp(now, [0.05, 0.09], [SHUT, OPEN]))


def through(now: float | Floats, pressure: float | Floats) -> Floats:
    return np.asarray(mass_flow(area(now), OUTSIDE, pressure, 298.15))


def answered(line: Demand, times: Floats) -> Floats:
    """What a network answers, by scipy's own root finder: the pressure that balances the line."""

    def surplus(pressure: float, now: float, rate: float, loss: float) -> float:
        return float(through(now, pressure) - rate * pressure + loss)

    rows = zip(times, *line, strict=True)
    return np.array([brentq(surplus, 1e3, 2e5, args=row, xtol=1e-7) for row in rows])


@cache
def followed(*given: float) -> tuple[Demand, Floats]:
    """The pressure through the step, and the engine's line."""
    times = np.array(given)
    step = hold(HELD, times)
    wanted = Demand(np.full(times.shape, RATE), np.full(times.shape, LOSS))
    pressure = answered(wanted, times)
    for _ in range(30):
        line = with_filling(wanted, step, pressure)
        found = answered(line, times)
        more = answered(line._replace(loss=line.loss + 1e-6), times)
        fresh = advanced(step, pressure, found, (more - found) / 1e-6)
        if np.max(np.abs(fresh - pressure)) < 1e-6:
            return wanted, fresh
        pressure = fresh
    raise AssertionError("the steps did not settle")


def theirs(times: Floats) -> Floats:
    """The same manifold by scipy's Radau rule at a tight tolerance, with no steps of ours."""

    def rate(now: float, p: Floats) -> Floats:
        return np.asarray((through(now, p) - RATE * p + LOSS) / HELD)

    first = answered(Demand(np.array([RATE]), np.array([LOSS])), times[:1])
    run = solve_ivp(
        rate, (0, times[-1]), first, "Radau", times, rtol=1e-10, atol=1e-6, max_step=1e-3
    )
    return np.asarray(run.y[0])


def test_a_throttle_step_agrees_with_scipy_when_the_steps_go_to_nothing() -> None:
    coarse, fine = (np.linspace(0.0, 0.12, 100 * n + 1) for n in (1, 2))
    whole, half = followed(*coarse)[1], followed(*fine)[1][::2]
    exact = theirs(coarse)
    rise = np.ptp(exact)
    assert np.max(np.abs(half - exact)) < 0.02 * rise
    assert np.max(np.abs(half - exact)) < 0.6 * np.max(np.abs(whole - exact))
    assert np.max(np.abs(2 * half - whole - exact)) < 2e-3 * rise


def test_long_steps_never_shoot_past_the_steady_pressure() -> None:
    wanted, pressure = followed(0.0, 0.04, 0.1, 0.5, 2.0)
    steady = answered(wanted, np.array([2.0] * 5))
    assert np.all(np.diff(pressure) >= -1e-6)
    assert pressure[-1] == pytest.approx(steady[-1], rel=1e-5)


@pytest.mark.parametrize("count", [5, 20, 101])
def test_air_in_is_air_stored_and_air_out(count: int) -> None:
    times = np.linspace(0.0, 0.12, count)
    wanted, pressure = followed(*times)
    books = filled(wanted, HELD, times, pressure, through(times, pressure))
    out = books.taken + books.stored - books.stored[0]
    np.testing.assert_allclose(books.entered, out, rtol=1e-9, atol=1e-15)


def test_at_choked_throttle_the_manifold_fills_with_the_engines_time_constant() -> None:
    # First principles: p follows exp(-t / tau), tau = V / (RT) over the slope of the demand.
    times = np.linspace(0.0, 0.04, 401)
    wanted = Demand(np.full(times.shape, RATE), np.full(times.shape, LOSS))
    step = hold(HELD, times)
    inflow, pressure = 4e-3, np.full(times.shape, 30e3)
    for _ in range(3):
        line = with_filling(wanted, step, pressure)
        found = (inflow + line.loss) / line.rate
        found[0] = 30e3
        pressure = advanced(step, pressure, found, 1 / line.rate)
    end, tau = (inflow + LOSS) / RATE, HELD / RATE
    np.testing.assert_allclose(pressure, end + (30e3 - end) * np.exp(-times / tau), rtol=1e-4)


def test_the_manifold_holds_what_an_ideal_gas_would() -> None:
    # 1.55 litres at 101325 Pa and 323.15 K with 287.05 J/(kg K): 1.693 g, by hand.
    assert pytest.approx(1.693e-3, rel=1e-3) == HELD * OUTSIDE


def test_times_that_do_not_rise_are_refused() -> None:
    with pytest.raises(RangeError, match="times must rise"):
        hold(HELD, [0.0, 0.0])

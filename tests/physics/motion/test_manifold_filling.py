"""A filling manifold: against scipy, and air that must not get lost."""

from functools import cache
from itertools import pairwise

import numpy as np
import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.engine.engine import air_demand
from fuelcircuits.physics.motion.manifold_filling import Demand, filled, held_air, with_filling
from fuelcircuits.physics.openings.gas_flow import mass_flow
from numpy.typing import NDArray
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from tests.places import RIGS

Floats = NDArray[np.float64]
ENGINE = read_rig(RIGS / "plover.toml").engine
OUTSIDE, WARM, SPEED, SHUT, OPEN = 101325.0, 323.15, 80.0, 20e-6, 600e-6
HELD = held_air(ENGINE, WARM)
LOSS = -air_demand(ENGINE, SPEED, 0.0, WARM, OUTSIDE)
RATE = (air_demand(ENGINE, SPEED, 1e5, WARM, OUTSIDE) + LOSS) / 1e5
WANTED = Demand(RATE, LOSS)


def through(now: float, pressure: float) -> float:
    """Air past a plate that opens from shut to open within 40 ms."""
    area = float(np.interp(now, [0.05, 0.09], [SHUT, OPEN]))
    return mass_flow(area, OUTSIDE, pressure, 298.15)


def answered(line: Demand, now: float) -> float:
    """What a network answers, by scipy's own root finder: the pressure that balances the line."""
    return float(brentq(lambda p: through(now, p) - line.at(p), 1e3, 2e5, xtol=1e-7))


@cache
def followed(*times: float) -> Floats:
    """The pressure through the step."""
    pressure = [answered(WANTED, times[0])]
    for before, now in pairwise(times):
        line = with_filling(WANTED, HELD, now - before, pressure[-1])
        pressure.append(answered(line, now))
    return np.array(pressure)


def theirs(times: Floats) -> Floats:
    """The same manifold by scipy's Radau rule at a tight tolerance, with no steps of ours."""

    def rate(now: float, p: Floats) -> list[float]:
        return [(through(now, float(p[0])) - WANTED.at(float(p[0]))) / HELD]

    first = [answered(WANTED, times[0])]
    run = solve_ivp(
        rate, (0, times[-1]), first, "Radau", times, rtol=1e-10, atol=1e-6, max_step=1e-3
    )
    return np.asarray(run.y[0])


def test_a_throttle_step_agrees_with_scipy_when_the_steps_go_to_nothing() -> None:
    coarse, fine = (np.linspace(0.0, 0.12, 100 * n + 1) for n in (1, 2))
    whole, half = followed(*coarse), followed(*fine)[::2]
    exact = theirs(coarse)
    rise = np.ptp(exact)
    assert np.max(np.abs(half - exact)) < 0.02 * rise
    assert np.max(np.abs(half - exact)) < 0.6 * np.max(np.abs(whole - exact))
    assert np.max(np.abs(2 * half - whole - exact)) < 2e-3 * rise


def test_long_steps_never_shoot_past_the_steady_pressure() -> None:
    pressure = followed(0.0, 0.04, 0.1, 0.5, 2.0)
    assert np.all(np.diff(pressure) >= -1e-6)
    assert pressure[-1] == pytest.approx(answered(WANTED, 2.0), rel=1e-5)


@pytest.mark.parametrize("count", [5, 20, 101])
def test_air_in_is_air_stored_and_air_out(count: int) -> None:
    times = np.linspace(0.0, 0.12, count).tolist()
    pressure = followed(*times).tolist()
    inflow = [through(*pair) for pair in zip(times, pressure, strict=True)]
    books = filled(HELD, times, pressure, inflow, [WANTED.at(each) for each in pressure])
    out = np.array(books.taken) + books.stored - books.stored[0]
    np.testing.assert_allclose(books.entered, out, rtol=1e-9, atol=1e-15)


def test_at_choked_throttle_the_manifold_fills_with_the_engines_time_constant() -> None:
    # First principles: p follows exp(-t / tau), tau = V / (RT) over the slope of the demand.
    times, inflow, pressure = np.linspace(0.0, 0.04, 401), 4e-3, [30e3]
    for before, now in pairwise(times.tolist()):
        line = with_filling(WANTED, HELD, now - before, pressure[-1])
        pressure.append((inflow + line.loss) / line.rate)
    end, tau = (inflow + LOSS) / RATE, HELD / RATE
    np.testing.assert_allclose(pressure, end + (30e3 - end) * np.exp(-times / tau), rtol=1e-4)


def test_the_manifold_holds_what_an_ideal_gas_would() -> None:
    # 1.55 litres at 101325 Pa and 323.15 K with 287.05 J/(kg K): 1.693 g, by hand.
    assert pytest.approx(1.693e-3, rel=1e-3) == HELD * OUTSIDE


def test_times_that_do_not_rise_are_refused() -> None:
    with pytest.raises(RangeError, match="time step must be positive"):
        with_filling(WANTED, HELD, 0.0, 30e3)

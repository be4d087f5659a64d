"""Wall film: against closed forms and scipy, and fuel that must not get lost."""

from dataclasses import replace

import numpy as np
import pytest
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.circuits.wall_film import (
    WallFilm,
    film_run,
    film_step,
    film_time,
    steady_film,
)
from numpy.typing import NDArray
from scipy.integrate import solve_ivp

FILM = WallFilm(wetting_share=0.3, warm_time=0.4)
COLD = 273.15
TIMES = np.linspace(0.0, 6.0, 301)
RAMP = np.interp(TIMES, [1.0, 1.2], [4e-4, 1.6e-3])  # a tip-in within 0.2 s
LIMIT = 0.3 * (1 - 0.25)  # X times the rise over the final flow, for a step to four times


def test_the_film_of_a_ramp_agrees_with_scipy() -> None:
    def grow(t: float, m: NDArray[np.float64]) -> NDArray[np.float64]:
        return np.asarray(0.3 * np.interp(t, TIMES, RAMP) - m / 0.4)

    theirs = solve_ivp(
        grow, (0, 6), [0.3 * 0.4 * 4e-4], "RK45", TIMES, rtol=1e-10, atol=1e-16, max_step=0.01
    )
    np.testing.assert_allclose(film_run(FILM, TIMES, RAMP).mass, theirs.y[0], rtol=1e-7)


@pytest.mark.parametrize("duration", [1e-6, 0.1, 1.0, 50.0])
def test_one_long_step_equals_many_short_ones(duration: float) -> None:
    # A linear system driven by a straight line: the exact step has no step length.
    flow, mass = np.linspace(1e-4, 9e-4, 65), 2e-4
    for i in range(64):
        mass = float(film_step(FILM, mass, (flow[i], flow[i + 1]), duration / 64))
    whole = film_step(FILM, 2e-4, (flow[0], flow[-1]), duration)
    assert mass == pytest.approx(float(whole), rel=1e-11)


def test_fuel_metered_is_fuel_burnt_plus_film_grown() -> None:
    run = film_run(FILM, TIMES, RAMP)
    rates = solve_ivp(  # the cylinder's share integrated by itself
        lambda t, m: [
            0.3 * np.interp(t, TIMES, RAMP) - m[0] / 0.4,
            0.7 * np.interp(t, TIMES, RAMP) + m[0] / 0.4,
        ],
        (0, 6),
        [run.mass[0], 0.0],
        rtol=1e-10,
        atol=1e-16,
        max_step=0.01,
    )
    grown = run.mass[-1] - run.mass[0]
    assert np.trapezoid(RAMP, TIMES) == pytest.approx(rates.y[1, -1] + grown, rel=1e-9)


def test_the_lean_spike_of_a_step_is_the_share_wetted_times_the_rise() -> None:
    # Closed form for a step from q0 to q1: lowest share is 1 - X (1 - q0 / q1).
    step = np.where(TIMES < 1.0, 4e-4, 1.6e-3)
    lowest = np.min(film_run(replace(FILM, warm_time=5.0), TIMES, step).to_cylinder / step)
    assert lowest == pytest.approx(1 - LIMIT, abs=1.5e-3)


def test_a_pump_shot_fills_the_lean_spike() -> None:
    shot = np.interp(TIMES, [1.0, 1.05, 1.2, 2.0], [0.0, 4e-4, 4e-4, 0.0])
    bare, helped = (film_run(FILM, TIMES, flow).to_cylinder / RAMP for flow in (RAMP, RAMP + shot))
    assert np.min(bare) < 0.85
    assert np.min(helped) > 0.95


def test_a_tip_out_is_rich_at_the_cylinder() -> None:
    run = film_run(FILM, TIMES, RAMP[::-1])
    assert np.max(run.to_cylinder / RAMP[::-1]) > 1.1


def test_a_cold_wall_holds_more_and_longer() -> None:
    assert film_time(FILM, COLD) == pytest.approx(0.4 * 2**3)
    assert steady_film(FILM, 1e-3, COLD) > steady_film(FILM, 1e-3)


def test_a_dry_wall_passes_the_fuel_straight_on() -> None:
    dry = film_run(replace(FILM, wetting_share=0.0), TIMES, RAMP)
    np.testing.assert_array_equal(dry.to_cylinder, RAMP)


def test_runs_side_by_side_equal_runs_alone() -> None:
    both = film_run(FILM, TIMES, np.stack([RAMP, 2 * RAMP], axis=1), np.linspace(280, 320, 301))
    alone = film_run(FILM, TIMES, 2 * RAMP, np.linspace(280, 320, 301))
    np.testing.assert_allclose(both.to_cylinder[:, 1], alone.to_cylinder, rtol=1e-13)


def test_a_flow_of_another_length_is_refused() -> None:
    with pytest.raises(RangeError, match="fuel flow must have 301 times"):
        film_run(FILM, TIMES, RAMP[:-1])

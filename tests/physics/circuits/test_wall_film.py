"""Wall film: against closed forms and scipy, and fuel that must not get lost."""

from dataclasses import replace
from itertools import pairwise

import pytest
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.circuits.wall_film import (
    FilmRun,
    WallFilm,
    film_run,
    film_step,
    film_time,
    steady_film,
)
from fuelcircuits.physics.numerics.interpolation import interpolate, linspace
from scipy.integrate import solve_ivp

FILM = WallFilm(wetting_share=0.3, warm_time=0.4)
COLD = 273.15
TIMES = linspace(0.0, 6.0, 301)
RAMP = [interpolate(now, [1.0, 1.2], [4e-4, 1.6e-3]) for now in TIMES]  # a tip-in within 0.2 s
LIMIT = 0.3 * (1 - 0.25)  # X times the rise over the final flow, for a step to four times


def over(run: FilmRun, flow: list[float]) -> list[float]:
    """Return the fuel that reaches the cylinders over a flow, at each time."""
    return [reached / wanted for reached, wanted in zip(run.to_cylinder, flow, strict=True)]


def test_the_film_of_a_ramp_agrees_with_scipy() -> None:
    def grow(t: float, m: list[float]) -> float:
        return 0.3 * interpolate(t, TIMES, RAMP) - m[0] / 0.4

    theirs = solve_ivp(
        grow, (0, 6), [0.3 * 0.4 * 4e-4], "RK45", TIMES, rtol=1e-10, atol=1e-16, max_step=0.01
    )
    assert film_run(FILM, TIMES, RAMP).mass == pytest.approx(theirs.y[0].tolist(), rel=1e-7)


@pytest.mark.parametrize("duration", [1e-6, 0.1, 1.0, 50.0])
def test_one_long_step_equals_many_short_ones(duration: float) -> None:
    # A linear system driven by a straight line: the exact step has no step length.
    mass = 2e-4
    for flows in pairwise(linspace(1e-4, 9e-4, 65)):
        mass = film_step(FILM, mass, flows, duration / 64)
    assert mass == pytest.approx(film_step(FILM, 2e-4, (1e-4, 9e-4), duration), rel=1e-11)


def test_fuel_metered_is_fuel_burnt_plus_film_grown() -> None:
    run = film_run(FILM, TIMES, RAMP)
    rates = solve_ivp(  # the cylinder's share integrated by itself
        lambda t, m: [
            0.3 * interpolate(t, TIMES, RAMP) - m[0] / 0.4,
            0.7 * interpolate(t, TIMES, RAMP) + m[0] / 0.4,
        ],
        (0, 6),
        [run.mass[0], 0.0],
        rtol=1e-10,
        atol=1e-16,
        max_step=0.01,
    )
    grown = run.mass[-1] - run.mass[0]
    metered = sum(0.02 * (before + after) / 2 for before, after in pairwise(RAMP))
    assert metered == pytest.approx(rates.y[1, -1] + grown, rel=1e-9)
    assert metered == pytest.approx(run.delivered[-1] + grown, rel=1e-12)


def test_the_lean_spike_of_a_step_is_the_share_wetted_times_the_rise() -> None:
    # Closed form for a step from q0 to q1: lowest share is 1 - X (1 - q0 / q1).
    step = [4e-4 if now < 1.0 else 1.6e-3 for now in TIMES]
    lowest = min(over(film_run(replace(FILM, warm_time=5.0), TIMES, step), step))
    assert lowest == pytest.approx(1 - LIMIT, abs=1.5e-3)


def test_a_pump_shot_fills_the_lean_spike() -> None:
    shot = [interpolate(t, [1.0, 1.05, 1.2, 2.0], [0.0, 4e-4, 4e-4, 0.0]) for t in TIMES]
    both = [metered + more for metered, more in zip(RAMP, shot, strict=True)]
    bare, helped = (over(film_run(FILM, TIMES, flow), RAMP) for flow in (RAMP, both))
    assert min(bare) < 0.85
    assert min(helped) > 0.95


def test_a_tip_out_is_rich_at_the_cylinder() -> None:
    assert max(over(film_run(FILM, TIMES, RAMP[::-1]), RAMP[::-1])) > 1.1


def test_a_cold_wall_holds_more_and_longer() -> None:
    assert film_time(FILM, COLD) == pytest.approx(0.4 * 2**3)
    assert steady_film(FILM, 1e-3, COLD) > steady_film(FILM, 1e-3)


def test_a_dry_wall_passes_the_fuel_straight_on() -> None:
    dry = film_run(replace(FILM, wetting_share=0.0), TIMES, RAMP)
    assert dry.to_cylinder == RAMP


def test_each_span_has_the_coolant_of_its_end() -> None:
    run = film_run(FILM, [0.0, 0.5, 1.5], [4e-4, 6e-4, 5e-4], [280.0, 300.0, 320.0])
    first = film_step(FILM, steady_film(FILM, 4e-4, 280.0), (4e-4, 6e-4), 0.5, 300.0)
    assert run.mass[1:] == [first, film_step(FILM, first, (6e-4, 5e-4), 1.0, 320.0)]
    assert run.to_cylinder[1] == pytest.approx(0.7 * 6e-4 + first / film_time(FILM, 300.0))


def test_a_flow_of_another_length_is_refused() -> None:
    with pytest.raises(RangeError, match="fuel flow must have one value for each time, got 300"):
        film_run(FILM, TIMES, RAMP[:-1])

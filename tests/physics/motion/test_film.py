"""Wall film: against closed forms and scipy, and the way pressure, air and cold move it."""

from dataclasses import replace
from itertools import pairwise

import pytest
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.circuits.wall_film import WallFilm
from fuelcircuits.physics.motion.film import Wetting, film_step, steady_film, wetting
from fuelcircuits.physics.numerics.interpolation import linspace
from scipy.integrate import solve_ivp

FILM = WallFilm(wetting_share=0.5, warm_time=0.4)
SWEPT = 3e-3
WALL = Wetting(0.3, 0.4)


def at(pressure: float, air: float, coolant: float = 363.15) -> Wetting:
    return wetting(FILM, SWEPT, pressure, air, coolant)


def test_at_one_bar_and_ten_kilograms_of_air_the_card_is_met() -> None:
    assert at(1e5, 10 * SWEPT) == pytest.approx((0.5, 0.4))


@pytest.mark.parametrize(
    ("pressure", "air", "share", "time"),
    [
        # Powers by hand: half the pressure, twice the air.
        (0.5e5, 10 * SWEPT, 0.5 * 0.5**3.5, 0.4 * 0.5**0.65),
        (1e5, 20 * SWEPT, 0.5 * 2**-0.08, 0.4 * 2**-1.08),
    ],
)
def test_share_and_time_go_with_powers(
    pressure: float, air: float, share: float, time: float
) -> None:
    assert at(pressure, air) == pytest.approx((share, time))


def test_at_one_air_flow_vacuum_keeps_the_wall_dry() -> None:
    walls = [at(pressure, 0.02) for pressure in linspace(30e3, 100e3, 8)]
    assert all(dry.share < wet.share and dry.time < wet.time for dry, wet in pairwise(walls))


def test_a_cold_wall_holds_more_and_longer() -> None:
    warm, cold = at(1e5, 0.03), at(1e5, 0.03, 303.15)
    assert cold.time == pytest.approx(4 * warm.time)
    assert steady_film(cold, 1e-3) == pytest.approx(4 * steady_film(warm, 1e-3))


def test_vacuum_flashes_less_off_a_cold_wall() -> None:
    # By hand: half way between -60 and 90 degC half of the power is left.
    cold = at(0.5e5, 10 * SWEPT, 288.15)
    assert cold.share == pytest.approx(0.5 * 0.5**1.75)
    assert at(0.5e5, 10 * SWEPT, 213.15).share == pytest.approx(0.5)


@pytest.mark.parametrize("air", [0.0, 1e-9, 10.0])
@pytest.mark.parametrize("coolant", [233.15, 400.0])
def test_share_and_time_stay_within_their_limits(air: float, coolant: float) -> None:
    wall = at(1e5, air, coolant)
    assert 0 < wall.share <= 0.75
    assert 0.05 <= wall.time <= (0.7 if coolant > 363 else 6)


def test_powers_of_nought_are_the_film_of_constant_share_and_time() -> None:
    names = ("share_by_pressure", "share_by_air", "time_by_pressure", "time_by_air")
    plain = replace(FILM, **dict.fromkeys(names, 0.0))
    assert wetting(plain, SWEPT, 40e3, 3e-3) == pytest.approx((0.5, 0.4))


def test_the_film_of_a_ramp_agrees_with_scipy_when_the_steps_go_to_nothing() -> None:
    def flow(now: float) -> float:
        return 4e-4 + 6e-3 * min(max(now - 0.1, 0.0), 0.2)

    begin, ends = steady_film(WALL, 4e-4), []
    for count in (500, 1000):
        mass = begin
        for now in linspace(0.0, 1.0, count + 1)[1:]:
            mass = film_step(WALL, mass, flow(now), 1.0 / count)
        ends.append(mass)
    theirs = solve_ivp(
        lambda now, mass: 0.3 * flow(now) - mass / 0.4,
        (0, 1),
        [begin],
        rtol=1e-10,
        atol=1e-16,
        max_step=0.01,
    ).y[0, -1]
    assert ends[1] == pytest.approx(theirs, rel=1e-3)
    assert 2 * ends[1] - ends[0] == pytest.approx(theirs, rel=1e-5)  # of the first order


def test_a_steady_film_stays_as_it_is_however_long_the_step() -> None:
    mass = steady_film(WALL, 1e-3)
    assert film_step(WALL, mass, 1e-3, 50.0) == pytest.approx(mass, rel=1e-12)


def test_a_step_of_no_length_is_refused() -> None:
    with pytest.raises(RangeError, match="duration must be positive"):
        film_step(WALL, 0.0, 1e-3, 0.0)

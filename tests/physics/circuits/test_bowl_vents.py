"""Bowl venting: against closed forms, scipy, and the way the trade says it goes."""

from dataclasses import replace
from itertools import pairwise
from math import pi

import pytest
from fuelcircuits.errors import ConvergenceError, RangeError
from fuelcircuits.physics.circuits.bowl_vents import (
    Surroundings,
    Vents,
    bowl_pressure,
    net_flow,
    openings,
    outside_lift,
)
from fuelcircuits.physics.numerics.interpolation import linspace
from scipy import optimize

AMBIENT = 101_325.0
HORN = AMBIENT - 900.0
INSIDE = Vents(inside_bore=5e-3)
MECHANICAL = Vents(
    inside_bore=5e-3,
    outside_bore=6e-3,
    outside_setting=1e-3,
    outside_idle_angle=0.2,
    outside_rate=0.01,
)
TWO_WAY = Vents(inside_bore=5e-3, canister_bore=6e-3, switched_share=1.0)
SHUT, OPEN = 0.1, 1.0
IDLE, RUNNING = (Surroundings(HORN, AMBIENT, angle) for angle in (SHUT, OPEN))


def test_a_bowl_with_an_inside_vent_alone_follows_the_air_horn() -> None:
    assert bowl_pressure(INSIDE, RUNNING) == pytest.approx(HORN, abs=1e-6)


@pytest.mark.parametrize("leak", [0.5, 1.0, 2.0])
def test_two_openings_share_the_drop_by_the_square_of_their_areas(leak: float) -> None:
    # First principles: equal flow through two orifices in series, small drops.
    vents = replace(INSIDE, gasket_leak=leak * pi / 4 * 5e-3**2)
    share = (bowl_pressure(vents, RUNNING) - HORN) / (AMBIENT - HORN)
    assert share == pytest.approx(leak**2 / (1 + leak**2), rel=5e-3)


@pytest.mark.parametrize("angle", linspace(0.0, 1.5, 7))
def test_the_balance_agrees_with_scipy_at_every_angle(angle: float) -> None:
    around = Surroundings(HORN, AMBIENT, angle, vapour=1e-5)
    theirs = optimize.brentq(
        lambda p: net_flow(MECHANICAL, p, around)[0], HORN - 1e3, AMBIENT + 1e3, xtol=1e-9
    )
    assert bowl_pressure(MECHANICAL, around) == pytest.approx(theirs, rel=0, abs=1e-7)


@pytest.mark.parametrize("pressure", [HORN - 40, HORN, HORN + 0.3, AMBIENT - 200, AMBIENT + 60])
def test_the_slope_is_the_derivative_of_the_flow(pressure: float) -> None:
    up, down = (net_flow(MECHANICAL, pressure + step, IDLE)[0] for step in (1e-4, -1e-4))
    slope = net_flow(MECHANICAL, pressure, IDLE)[1]
    assert slope == pytest.approx((up - down) / 2e-4, rel=1e-4)
    assert slope < 0


def test_gas_in_equals_gas_out_to_a_billionth_of_the_flow() -> None:
    pressure = bowl_pressure(MECHANICAL, IDLE._replace(vapour=2e-5))
    assert abs(net_flow(MECHANICAL, pressure, IDLE._replace(vapour=2e-5))[0]) < 2e-14


@pytest.mark.parametrize(
    ("vents", "angle", "ignition", "wide"),
    [
        (INSIDE, SHUT, 0.0, {"inside"}),
        (MECHANICAL, SHUT, 1.0, {"inside", "outside"}),
        (MECHANICAL, OPEN, 1.0, {"inside"}),
        (TWO_WAY, SHUT, 1.0, {"inside"}),
        (TWO_WAY, SHUT, 0.0, {"canister"}),
        (replace(TWO_WAY, solenoid_pull=0.0), SHUT, 1.0, {"canister"}),
        (replace(TWO_WAY, solenoid_stick=1.0), SHUT, 0.0, {"inside"}),
        (replace(MECHANICAL, outside_hang=5e-4), OPEN, 1.0, {"inside", "outside"}),
    ],
)
def test_each_vent_is_open_when_the_trade_says_it_is(
    vents: Vents, angle: float, ignition: float, wide: set[str]
) -> None:
    # Common practice, no source: which vent is open with throttle and ignition how.
    areas = openings(vents, angle, ignition)._asdict()
    assert {name for name, area in areas.items() if area > 1e-6} == wide


def test_the_outside_vent_loses_its_lift_smoothly_and_for_good() -> None:
    lifts = [outside_lift(MECHANICAL, angle) for angle in linspace(0.0, 1.5, 3001)]
    lost = [before - after for before, after in pairwise(lifts)]
    assert min(lost) >= 0
    bends = [abs(after - before) for before, after in pairwise(lost)]
    assert max(bends) < 0.1 * 0.01 * 5e-4  # a corner would be 0.01 * 5e-4
    assert outside_lift(MECHANICAL, 0.0) == pytest.approx(1e-3)


def test_a_wide_open_outside_vent_is_limited_by_its_bore() -> None:
    wide = openings(replace(MECHANICAL, outside_setting=5e-3), SHUT).outside
    assert 0.95 * pi / 4 * 6e-3**2 < wide < pi / 4 * 6e-3**2


@pytest.mark.parametrize(
    ("change", "angle"),
    [
        ({"outside_setting": 2e-3}, SHUT),
        ({"outside_hang": 1e-3}, OPEN),
        ({"gasket_leak": 1e-5}, OPEN),
    ],
)
def test_an_opening_to_the_outside_raises_the_bowl_above_the_air_horn(
    change: dict[str, float], angle: float
) -> None:
    # Common practice, no source: a hung or wide outside vent and a leaking cover run rich.
    before = bowl_pressure(MECHANICAL, Surroundings(HORN, AMBIENT, angle))
    assert (
        bowl_pressure(replace(MECHANICAL, **change), Surroundings(HORN, AMBIENT, angle))
        > before + 20
    )


def test_bowl_pressure_rises_when_vapour_is_made_and_more_so_through_a_small_vent() -> None:
    small = replace(INSIDE, inside_bore=2e-3)
    large_rise, small_rise = (
        bowl_pressure(v, RUNNING._replace(vapour=5e-5)) - HORN for v in (INSIDE, small)
    )
    assert 0 < large_rise < small_rise


def test_a_restricted_air_cleaner_pulls_the_bowl_down_with_the_air_horn() -> None:
    horns = [AMBIENT - loss for loss in (100.0, 500.0, 2000.0, 5000.0)]
    bowls = [bowl_pressure(MECHANICAL, Surroundings(horn, AMBIENT, OPEN)) for horn in horns]
    assert all(before > after for before, after in pairwise(bowls))


def test_a_bowl_shut_off_from_everything_is_refused() -> None:
    with pytest.raises(ConvergenceError, match="every vent shut"):
        bowl_pressure(Vents(inside_bore=0.0), RUNNING)


def test_an_impossible_vent_is_refused_by_name() -> None:
    with pytest.raises(RangeError, match="inside bore must be between"):
        Vents(inside_bore=0.5)

"""A pump's shot: against closed forms and scipy, and the way the trade says it goes."""

from dataclasses import replace

import pytest
from fuelcircuits.physics.circuits.high_speed import jet_coefficients, jet_flow
from fuelcircuits.physics.circuits.pump import (
    Pump,
    effective_area,
    rod_position,
    shot_volume,
)
from fuelcircuits.physics.motion.pump_shot import SOFT_AIR, pump_rates, pump_run
from fuelcircuits.physics.numerics.interpolation import interpolate, linspace, nearest
from fuelcircuits.physics.openings.two_phase import bore_area
from scipy.integrate import solve_ivp

PUMP = Pump(
    bore=18e-3,
    plate_bore=18e-3,
    stroke=8e-3,
    linkage_start=0.2,
    linkage_rate=8e-3,
    spring_rate=400.0,
    spring_preload=2.0,
    lost_motion=10e-3,
    jet_bore=0.45e-3,
    jet_length=1.5e-3,
)
TIMES = linspace(0.0, 8.0, 161)
WHOLE = shot_volume(PUMP, 0.2, 1.2)


def moved(places: list[float], angles: list[float], times: list[float] = TIMES) -> list[float]:
    """Return the throttle angle at each time of a movement in straight lines."""
    return [interpolate(now, places, angles) for now in times]


STAMP = moved([0.5, 0.6, 5.0, 5.3], [0.2, 1.2, 1.2, 0.2])  # down, hold, let go


def delivered(pump: Pump, angles: list[float] = STAMP) -> float:
    return pump_run(pump, TIMES, angles).delivered[-1]


def test_a_tight_pump_delivers_the_volume_it_sweeps() -> None:
    assert delivered(PUMP) == pytest.approx(WHOLE, rel=0.01)


def test_under_a_constant_force_the_shot_runs_evenly_for_as_long_as_volume_over_flow() -> None:
    # Closed form: constant force, constant pressure, constant flow.
    pump = replace(PUMP, spring_rate=10.0, spring_preload=20.0, check_pressure=0.0)
    area = effective_area(pump)
    jet, drop = jet_coefficients(0.45e-3, 1.5e-3), (20.0 + 10.0 * 4e-3) / area
    flow = 2 * jet_flow(bore_area(0.45e-3), 0.45e-3, jet, drop, 745.0, viscosity=0.5e-3)
    run = pump_run(pump, TIMES[:50], STAMP[:50])
    half = interpolate(WHOLE / 2, run.delivered, TIMES[:50]) - 0.5
    assert half == pytest.approx(745 * WHOLE / 2 / flow, rel=0.01)
    assert run.fuel_flow[14:20] == pytest.approx([flow] * 6, rel=2e-3)


def test_the_run_agrees_with_scipy() -> None:
    times = linspace(0.0, 2.0, 41)

    def rates(t: float, state: list[float]) -> list[float]:
        angle = interpolate(t, [0.0, 1.0], [0.3, 1.1])
        return pump_rates(PUMP, rod_position(PUMP, angle), state)[0]

    start = [rod_position(PUMP, 0.3), 0.0, 0.0]
    theirs = solve_ivp(
        rates, (0, 2), start, "DOP853", times, rtol=1e-10, atol=1e-14, max_step=0.01
    ).y.tolist()
    ours = pump_run(PUMP, times, moved([0.0, 1.0], [0.3, 1.1], times))
    assert ours.plunger == pytest.approx(theirs[0], rel=2e-5)
    assert ours.delivered == pytest.approx(theirs[2], rel=2e-5, abs=1e-12)


@pytest.mark.parametrize(
    ("rod", "plunger", "air"), [(6e-3, 2e-3, 1e-8), (2e-3, 6e-3, 0.0)], ids=["down", "up"]
)
def test_the_chamber_neither_gains_nor_loses_volume(rod: float, plunger: float, air: float) -> None:
    pump = replace(PUMP, cup_leak=3e-7, inlet_leak=2e-7, discharge_leak=2e-7)
    (travel, aired, fuel), flows = pump_rates(pump, rod, [plunger, air, 0.0])
    assert effective_area(pump) * travel == pytest.approx(sum(flows), rel=1e-12)
    share = air / (air + SOFT_AIR)
    assert fuel == pytest.approx((1 - share) * flows.jet)
    assert aired == pytest.approx(-share * flows.jet - flows.back)


@pytest.mark.parametrize(
    ("fault", "share"),
    [
        ({"cup_leak": 1e-6}, 0.6),
        ({"inlet_leak": 1e-6}, 0.6),
        ({"jet_bore": 0.2e-3}, 0.9),  # part blocked: the foot is off before the shot is over
        ({"stroke": 4e-3}, 0.51),
        ({"spring_preload": 0.1, "spring_rate": 20.0}, 0.9),  # tired spring, cut off likewise
    ],
)
def test_a_worn_or_wrong_part_shortens_the_shot(fault: dict[str, float], share: float) -> None:
    assert delivered(replace(PUMP, **fault)) < share * WHOLE


def test_a_torn_cup_hurts_a_slow_foot_more_than_a_fast_one() -> None:
    # Common practice, no source: creep the throttle open and a leaking pump gives nothing.
    torn, slow = replace(PUMP, cup_leak=5e-7), moved([0.0, 7.5], [0.2, 1.2])
    assert delivered(torn, slow) < 0.5 * delivered(torn)
    assert delivered(PUMP, slow) > 0.95 * WHOLE


def test_a_smaller_jet_gives_a_longer_and_weaker_shot() -> None:
    large, small = (
        pump_run(replace(PUMP, jet_bore=bore), TIMES, STAMP) for bore in (0.5e-3, 0.4e-3)
    )
    assert max(small.fuel_flow) < max(large.fuel_flow)
    early, late = (interpolate(0.9 * WHOLE, run.delivered, TIMES) for run in (large, small))
    assert early < late


def test_a_leaking_discharge_check_puts_air_before_the_next_shot() -> None:
    angles = moved([0.1, 0.2, 2.0, 2.2, 4.0, 4.1], [0.2, 1.2, 1.2, 0.2, 0.2, 1.2])
    tight, leaking = (
        pump_run(replace(PUMP, discharge_leak=leak), TIMES, angles) for leak in (0.0, 1e-6)
    )
    at = nearest(4.15, TIMES)
    assert leaking.air[at] > 2e-8
    assert leaking.fuel_flow[at] < 0.5 * tight.fuel_flow[at]


@pytest.mark.parametrize(("depression", "drawn"), [(250.0, False), (2000.0, True)])
def test_only_a_depression_that_lifts_the_check_pulls_fuel_over(
    depression: float, drawn: bool
) -> None:
    run = pump_run(PUMP, TIMES[:21], [0.8] * 21, depression=depression)
    assert (run.delivered[-1] > 1e-8) == drawn


def test_a_movement_may_be_a_function_of_time() -> None:
    by_function = pump_run(PUMP, TIMES[:31], lambda t: 0.2 + 0.7 * min(t, 1.0))
    by_row = pump_run(PUMP, TIMES[:31], moved([0.0, 1.0], [0.2, 0.9], TIMES[:31]))
    assert by_function.delivered == pytest.approx(by_row.delivered, rel=1e-4, abs=1e-12)

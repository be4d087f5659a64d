"""A pump's shot: against closed forms and scipy, and the way the trade says it goes."""

from dataclasses import replace

import numpy as np
import pytest
from fuelcircuits.physics.circuits.pump import (
    Pump,
    effective_area,
    rod_position,
    shot_volume,
)
from fuelcircuits.physics.motion.pump_shot import pump_rates, pump_run
from fuelcircuits.physics.openings.orifice import mass_flow
from numpy.typing import NDArray
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
TIMES = np.linspace(0.0, 8.0, 161)
STAMP = np.interp(TIMES, [0.5, 0.6, 5.0, 5.3], [0.2, 1.2, 1.2, 0.2])  # down, hold, let go
WHOLE = shot_volume(PUMP, 0.2, 1.2)


def delivered(pump: Pump, angles: NDArray[np.float64] = STAMP) -> float:
    return float(pump_run(pump, TIMES, angles).delivered[-1])


def test_a_tight_pump_delivers_the_volume_it_sweeps() -> None:
    assert delivered(PUMP) == pytest.approx(WHOLE, rel=0.01)


def test_under_a_constant_force_the_shot_runs_evenly_for_as_long_as_volume_over_flow() -> None:
    # Closed form: constant force, constant pressure, constant flow.
    pump = replace(PUMP, spring_rate=10.0, spring_preload=20.0, check_pressure=0.0)
    area = effective_area(pump)
    flow = 2 * mass_flow(0.45e-3, 1.5e-3, (20.0 + 10.0 * 4e-3) / area, 745.0, 0.5e-3)
    run = pump_run(pump, TIMES[:50], STAMP[:50])
    half = np.interp(WHOLE / 2, run.delivered, TIMES[:50]) - 0.5
    assert half == pytest.approx(float(745 * WHOLE / 2 / flow), rel=0.01)
    np.testing.assert_allclose(run.fuel_flow[14:20], flow, rtol=2e-3)


def test_the_run_agrees_with_scipy() -> None:
    times = np.linspace(0, 2, 41)

    def rates(t: float, state: NDArray[np.float64]) -> NDArray[np.float64]:
        angle = np.interp(t, [0, 1.0], [0.3, 1.1])
        return pump_rates(PUMP, rod_position(PUMP, angle), state)[0]

    start = [rod_position(PUMP, 0.3), 0.0, 0.0]
    theirs = solve_ivp(
        rates, (0, 2), start, "DOP853", times, rtol=1e-10, atol=1e-14, max_step=0.01
    ).y
    ours = pump_run(PUMP, times, np.interp(times, [0, 1.0], [0.3, 1.1]))
    np.testing.assert_allclose(ours.plunger, theirs[0], rtol=2e-5)
    np.testing.assert_allclose(ours.delivered, theirs[2], rtol=2e-5, atol=1e-12)


def test_the_chamber_neither_gains_nor_loses_volume() -> None:
    pump = replace(PUMP, cup_leak=3e-7, inlet_leak=2e-7, discharge_leak=2e-7)
    state = np.array([[2e-3, 6e-3], [1e-8, 0.0], [0.0, 0.0]])
    rates, flows = pump_rates(pump, np.array([6e-3, 2e-3]), state)
    np.testing.assert_allclose(effective_area(pump) * rates[0], sum(flows), rtol=1e-12)
    np.testing.assert_allclose(rates[1] + rates[2], flows.jet - 2 * _aired(flows.jet) - flows.back)


def _aired(jet: NDArray[np.float64]) -> NDArray[np.float64]:
    return np.array([1e-8 / (1e-8 + 5e-9), 0.0]) * jet


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
    torn, slow = replace(PUMP, cup_leak=5e-7), np.interp(TIMES, [0.0, 7.5], [0.2, 1.2])
    assert delivered(torn, slow) < 0.5 * delivered(torn)
    assert delivered(PUMP, slow) > 0.95 * WHOLE


def test_a_smaller_jet_gives_a_longer_and_weaker_shot() -> None:
    large, small = (
        pump_run(replace(PUMP, jet_bore=bore), TIMES, STAMP) for bore in (0.5e-3, 0.4e-3)
    )
    assert np.max(small.fuel_flow) < np.max(large.fuel_flow)
    assert np.interp(0.9 * WHOLE, small.delivered, TIMES) > np.interp(
        0.9 * WHOLE, large.delivered, TIMES
    )


def test_a_leaking_discharge_check_puts_air_before_the_next_shot() -> None:
    angles = np.interp(TIMES, [0.1, 0.2, 2.0, 2.2, 4.0, 4.1], [0.2, 1.2, 1.2, 0.2, 0.2, 1.2])
    tight, leaking = (
        pump_run(replace(PUMP, discharge_leak=leak), TIMES, angles) for leak in (0.0, 1e-6)
    )
    at = np.searchsorted(TIMES, 4.15)
    assert leaking.air[at] > 2e-8
    assert leaking.fuel_flow[at] < 0.5 * tight.fuel_flow[at]


@pytest.mark.parametrize(("depression", "drawn"), [(250.0, False), (2000.0, True)])
def test_only_a_depression_that_lifts_the_check_pulls_fuel_over(
    depression: float, drawn: bool
) -> None:
    run = pump_run(PUMP, TIMES[:21], np.full(21, 0.8), depression=depression)
    assert (run.delivered[-1] > 1e-8) == drawn


def test_many_pumps_at_once_equal_one_at_a_time() -> None:
    tips = np.array([0.6, 0.9, 1.2])
    many = pump_run(PUMP, TIMES[:31], lambda t: 0.2 + (tips - 0.2) * min(t, 1.0))
    one = pump_run(PUMP, TIMES[:31], lambda t: 0.2 + 0.7 * min(t, 1.0))
    np.testing.assert_allclose(many.delivered[:, 1], one.delivered, rtol=1e-4, atol=1e-12)

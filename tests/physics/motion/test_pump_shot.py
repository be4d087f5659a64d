"""A pump's shot: against closed forms and scipy, and the way the trade says it goes."""

from dataclasses import replace
from operator import sub

import pytest
from fuelcircuits.physics.circuits.high_speed import jet_coefficients, jet_flow
from fuelcircuits.physics.circuits.pump import (
    Pump,
    effective_area,
    pump_flows,
    rod_position,
    shot_volume,
    spring_force,
)
from fuelcircuits.physics.motion.pump_shot import (
    SOFT_AIR,
    Liquid,
    Plunger,
    pump_rest,
    pump_run,
    pump_step,
)
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


def test_a_shot_is_over_when_the_spring_is_and_not_before() -> None:
    run = pump_run(PUMP, TIMES, STAMP)
    assert run.fuel_flow[-1] == 0.0
    assert run.plunger[-1] == pytest.approx(run.rod[-1], abs=1e-6)


def test_the_run_agrees_with_scipy_when_the_steps_go_to_nothing() -> None:
    times, area = linspace(0.0, 2.0, 41), effective_area(PUMP)

    def rates(t: float, state: list[float]) -> list[float]:
        rod = rod_position(PUMP, interpolate(t, [0.0, 1.0], [0.3, 1.1]))
        flows = pump_flows(PUMP, spring_force(PUMP, rod, state[0]) / area)
        return [sum(flows) / area, flows.jet]

    start = [rod_position(PUMP, 0.3), 0.0]
    theirs = solve_ivp(
        rates, (0, 2), start, "DOP853", times, rtol=1e-10, atol=1e-14, max_step=0.01
    ).y.tolist()
    angles = moved([0.0, 1.0], [0.3, 1.1], times)
    coarse, fine = (pump_run(PUMP, times, angles, longest=step) for step in (2e-3, 1e-3))
    assert fine.plunger == pytest.approx(theirs[0], rel=5e-3)
    assert fine.delivered == pytest.approx(theirs[1], rel=5e-3, abs=3e-10)
    off = [max(map(abs, map(sub, run.plunger, theirs[0]))) for run in (coarse, fine)]
    assert off[1] < 0.6 * off[0]


LEAKS = {"cup_leak": 3e-7, "inlet_leak": 2e-7, "discharge_leak": 2e-7}


@pytest.mark.parametrize("leaks", [{}, LEAKS], ids=["tight", "leaking"])
@pytest.mark.parametrize(
    ("rod", "plunger", "air"), [(6e-3, 2e-3, 1e-8), (2e-3, 6e-3, 0.0), (8e-3, 0.0, 0.0)]
)
def test_the_chamber_neither_gains_nor_loses_volume(
    rod: float, plunger: float, air: float, leaks: dict[str, float]
) -> None:
    pump, before = replace(PUMP, **leaks), Plunger(plunger, air)
    after = pump_step(pump, before, rod, 0.01, Liquid())
    pressure = spring_force(pump, rod, after.travel) / effective_area(pump)
    flows = pump_flows(pump, pressure)
    swept = effective_area(pump) * (after.travel - before.travel)
    assert swept == pytest.approx(0.01 * sum(flows), rel=1e-6)
    share = air / (air + SOFT_AIR)
    assert after.given == pytest.approx(0.01 * (1 - share) * flows.jet)
    assert after.air == pytest.approx(max(air - 0.01 * (share * flows.jet + flows.back), 0.0))


def test_a_pump_at_rest_stays_at_rest() -> None:
    still = pump_rest(PUMP, 0.7)
    assert pump_step(PUMP, still, rod_position(PUMP, 0.7), 5.0, Liquid()) == still


@pytest.mark.parametrize("duration", [1e-4, 0.02, 1.0, 100.0])
@pytest.mark.parametrize("leak", [0.0, 1e-9, 3e-7, 5e-6])
def test_a_step_of_any_length_and_any_leak_has_an_answer(duration: float, leak: float) -> None:
    """Where a plunger meets its stop or a leaking check, flows turn on a hair."""
    pump = replace(PUMP, inlet_leak=leak, spring_rate=1168.0)
    state = pump_rest(pump, 0.2)
    for angle in (0.4, 1.4, 1.4, 0.3, 0.2):
        state = pump_step(pump, state, rod_position(pump, angle), duration, Liquid())
        assert 0.0 <= state.travel <= pump.stroke


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

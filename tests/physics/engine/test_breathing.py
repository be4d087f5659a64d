"""Air path and engine together: conservation, an outside solver, and both teaching rigs."""

import dataclasses

import numpy as np
import pytest
from fuelcircuits.errors import ConvergenceError, RangeError
from fuelcircuits.physics.engine.air_path import choke_area, throttle_area, throttle_flow
from fuelcircuits.physics.engine.breathing import AirState, angle_for_flow, idle_angle, solve
from fuelcircuits.physics.engine.engine import air_demand, manifold_temperature
from fuelcircuits.physics.engine.torque import brake_torque
from fuelcircuits.physics.engine.venturi import throttle_pressure, venturi_flow
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.network.rig import Rig, read_rig
from fuelcircuits.physics.openings.gas_flow import mass_flow
from fuelcircuits.physics.openings.plate import OPEN
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import root

from tests.places import RIGS

CARDED = [read_rig(RIGS / f"{name}.toml") for name in ("plover", "dunlin")]
PLOVER = CARDED[0]
SEA = Weather.at(0.0)
RPM = 2 * np.pi / 60  # rad/s
INCH_OF_MERCURY, INCH_OF_WATER = 3386.389, 249.0889  # Pa; NIST SP 811


def breathe(rig: Rig, weather: Weather, speed: object, angle: object) -> AirState:
    """Return the state of a rig with its choke open."""
    speeds, angles = np.asarray(speed, dtype=float), np.asarray(angle, dtype=float)
    return solve(rig.engine, rig.air_path, weather, speeds, angles)


@pytest.mark.parametrize("rpm", [700, 2000, 4000])
@pytest.mark.parametrize("degrees", [14.0, 30.0, 89.0])
@pytest.mark.parametrize("choke", [25.0, 90.0])
def test_state_is_the_one_a_general_solver_finds(rpm: float, degrees: float, choke: float) -> None:
    path, engine, angle = PLOVER.air_path, PLOVER.engine, np.radians(degrees)
    warm = manifold_temperature(engine, SEA.temperature)

    def flow(area: object, before: float, behind: float) -> float:
        areas = np.asarray(area, dtype=float)
        return float(mass_flow(areas, before, behind, 288.15, gas_constant=SEA.gas_constant))

    def balance(pressures: list[float]) -> list[float]:
        horn, below, throat, manifold = np.exp(pressures)
        taken = float(air_demand(engine, rpm * RPM, manifold, warm, 101_325.0))
        before = throttle_pressure(path, below, throat)
        return [
            flow(path.cleaner_area, 101_325.0, horn) - taken,
            flow(choke_area(path, np.radians(choke)), horn, below) - taken,
            float(venturi_flow(path, below, throat, SEA)) - taken,
            float(throttle_flow(path, angle, before, manifold, SEA)) - taken,
        ]

    state = solve(engine, path, SEA, rpm * RPM, angle, choke_angle=np.radians(choke))
    found = state.horn_pressure, state.choke_pressure, state.venturi_pressure
    answer = np.log([float(each) for each in (*found, state.manifold_pressure)])
    start = answer - np.array([0.0001, 0.0002, 0.0004, 0.01])
    outside = root(balance, start, tol=1e-14)
    assert np.abs(balance(list(answer))) == pytest.approx(np.zeros(4), abs=1e-9)
    assert np.exp(outside.x) == pytest.approx(np.exp(answer), rel=1e-6)


@settings(max_examples=60, deadline=None)
@given(
    st.sampled_from(CARDED),
    st.floats(0.0, 3000.0),
    st.floats(243.0, 323.0),
    st.floats(20.0, 480.0),
    st.tuples(st.floats(0.0, 1.57), st.floats(0.0, 1.57)),
)
def test_air_is_kept_at_any_weather_speed_and_angle(
    rig: Rig, altitude: float, kelvin: float, speed: float, angles: tuple[float, float]
) -> None:
    weather = Weather.at(altitude, kelvin, 0.5)
    path = dataclasses.replace(rig.air_path, manifold_leak=3e-6)
    state = solve(rig.engine, path, weather, speed, angles[0], choke_angle=angles[1])
    through = throttle_flow(
        path, angles[0], state.throttle_pressure, state.manifold_pressure, weather
    )
    assert np.all(np.isfinite(state))
    balance = float(through + state.leak_flow - state.engine_flow)
    assert balance == pytest.approx(0.0, abs=1e-9 * float(state.engine_flow))


@settings(max_examples=40, deadline=None)
@given(st.sampled_from(CARDED), st.floats(800.0, 4000.0), st.floats(0.3, 1.1))
def test_angle_inverts_the_state(rig: Rig, rpm: float, angle: float) -> None:
    state = breathe(rig, SEA, rpm * RPM, angle)
    back = angle_for_flow(rig.engine, rig.air_path, SEA, rpm * RPM, state.engine_flow)
    assert float(back) == pytest.approx(angle, rel=1e-5)


def test_pressure_falls_all_the_way_to_the_throat_and_comes_back_below() -> None:
    state = breathe(PLOVER, SEA, 3000 * RPM, OPEN)
    assert state.ambient_pressure > state.horn_pressure > state.choke_pressure
    assert state.choke_pressure > state.throttle_pressure > state.venturi_pressure
    assert state.venturi_pressure > state.booster_pressure


def test_sweep_is_the_same_as_point_by_point() -> None:
    speeds, angles = np.meshgrid([70.0, 200.0, 400.0], [0.2, 0.5, 1.2])
    swept = breathe(PLOVER, SEA, speeds, angles).manifold_pressure
    single = [
        float(breathe(PLOVER, SEA, speed, angle).manifold_pressure)
        for speed, angle in zip(speeds.flat, angles.flat, strict=True)
    ]
    assert swept.ravel() == pytest.approx(single, rel=1e-9)


# 16 to 20 inHg at 600 to 800 rpm: common practice, no source.
@pytest.mark.parametrize("rig", CARDED, ids=lambda rig: rig.name)
def test_warm_idle_has_a_healthy_vacuum(rig: Rig) -> None:
    angle = idle_angle(rig.engine, rig.air_path, SEA)
    state = breathe(rig, SEA, rig.engine.idle_speed, angle)
    assert 600 < rig.engine.idle_speed / RPM < 800
    assert 16 < state.manifold_vacuum / INCH_OF_MERCURY < 20


# A few degrees off the closed plate: common practice, no source.
@pytest.mark.parametrize("rig", CARDED, ids=lambda rig: rig.name)
def test_plate_is_almost_closed_at_idle(rig: Rig) -> None:
    opened = idle_angle(rig.engine, rig.air_path, SEA) - rig.air_path.throttle_closed_angle
    assert 1 < np.degrees(opened) < 6


@pytest.mark.parametrize("rig", CARDED, ids=lambda rig: rig.name)
def test_engine_turns_at_its_idle_speed_with_nothing_to_drive(rig: Rig) -> None:
    speed = rig.engine.idle_speed
    state = breathe(rig, SEA, speed, idle_angle(rig.engine, rig.air_path, SEA))
    left = brake_torque(rig.engine, speed, state.engine_flow, state.manifold_pressure, SEA.pressure)
    assert float(left) == pytest.approx(0.0, abs=1e-4)


# The throttle chokes at idle: what is below no longer matters (first principles).
def test_idle_air_does_not_depend_on_the_manifold() -> None:
    angle = idle_angle(PLOVER.engine, PLOVER.air_path, SEA)
    flows = breathe(PLOVER, SEA, np.array([700.0, 1000.0]) * RPM, angle).engine_flow
    assert flows[1] == pytest.approx(flows[0], rel=1e-3)


# Tens of inches of water at the booster, 1 to 3 inHg in all: common practice, no source.
@pytest.mark.parametrize("rig", CARDED, ids=lambda rig: rig.name)
def test_wide_open_depression_is_what_a_booster_shows(rig: Rig) -> None:
    state = breathe(rig, SEA, 4000 * RPM, OPEN)
    assert 20 < state.booster_depression / INCH_OF_WATER < 60
    assert 1 < state.manifold_vacuum / INCH_OF_MERCURY < 3


def test_opening_the_throttle_loses_vacuum_and_gains_air() -> None:
    state = breathe(PLOVER, SEA, 2000 * RPM, np.linspace(0.2, 1.3, 40))
    assert np.all(np.diff(state.manifold_vacuum) < 0)
    assert np.all(np.diff(state.engine_flow) > 0)


def test_altitude_takes_air_away() -> None:
    heights = Weather.at(np.array([0.0, 1000.0, 2000.0, 3000.0]))
    assert np.all(np.diff(breathe(PLOVER, heights, 2500 * RPM, OPEN).engine_flow) < 0)


def test_choke_deepens_the_depression() -> None:
    angles = np.radians([90.0, 60.0, 40.0, 20.0])
    state = solve(
        PLOVER.engine, PLOVER.air_path, SEA, 150 * RPM, np.radians(20.0), choke_angle=angles
    )
    assert np.all(np.diff(state.booster_depression) > 0)


# Cranking on a shut choke draws tens of inches of water: common practice, no source.
@pytest.mark.parametrize("rig", CARDED, ids=lambda rig: rig.name)
def test_shut_choke_makes_a_cranking_depression(rig: Rig) -> None:
    state = solve(rig.engine, rig.air_path, SEA, 200 * RPM, np.radians(17.0), choke_angle=0.0)
    assert 10 < state.booster_depression / INCH_OF_WATER < 60


def test_leak_raises_the_manifold_and_spares_the_carburettor() -> None:
    leaky = dataclasses.replace(PLOVER.air_path, manifold_leak=5e-6)
    states = [solve(PLOVER.engine, path, SEA, 70.0, 0.24) for path in (PLOVER.air_path, leaky)]
    assert states[1].manifold_pressure > states[0].manifold_pressure
    assert states[1].carburettor_flow <= states[0].carburettor_flow * (1 + 1e-9)


def test_clogged_cleaner_takes_air_away() -> None:
    clogged = dataclasses.replace(PLOVER.air_path, cleaner_area=6e-4)
    states = [solve(PLOVER.engine, path, SEA, 350.0, OPEN) for path in (PLOVER.air_path, clogged)]
    assert states[1].engine_flow < 0.95 * states[0].engine_flow


def test_more_air_than_an_open_throttle_gives_is_refused() -> None:
    with pytest.raises(ConvergenceError, match="engine air flow must be what a closed to an open"):
        angle_for_flow(PLOVER.engine, PLOVER.air_path, SEA, 200.0, 0.2)


def test_engine_at_rest_is_refused() -> None:
    with pytest.raises(RangeError, match="speed must be positive"):
        breathe(PLOVER, SEA, 0.0, 0.3)


def test_area_past_the_throttle_holds_the_clearance() -> None:
    shut = throttle_area(PLOVER.air_path, 0.0)
    assert float(shut) == pytest.approx(2 * 0.85 * PLOVER.air_path.throttle_leak)

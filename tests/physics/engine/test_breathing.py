"""Air path and engine together: conservation, an outside solver, and both teaching rigs."""

import dataclasses
from math import isfinite, pi, radians

import numpy as np
import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.engine.air_path import choke_area, throttle_area, throttle_flow
from fuelcircuits.physics.engine.breathing import AirState, solve
from fuelcircuits.physics.engine.engine import air_demand, manifold_temperature
from fuelcircuits.physics.engine.venturi import throttle_pressure, venturi_area
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.numerics.interpolation import linspace
from fuelcircuits.physics.openings.gas_flow import mass_flow
from fuelcircuits.physics.openings.plate import OPEN
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import root

from tests.places import RIGS

CARDED = [read_rig(RIGS / f"{name}.toml") for name in ("plover", "dunlin")]
PLOVER = CARDED[0]
SEA = Weather.at(0.0)
RPM = 2 * pi / 60  # rad/s
INCH_OF_MERCURY, INCH_OF_WATER = 3386.389, 249.0889  # Pa; NIST SP 811


def breathe(rig: Rig, weather: Weather, speed: float, angle: float) -> AirState:
    """Return the state of a rig with its choke open."""
    return solve(rig.engine, rig.air_path, weather, speed, angle)


@pytest.mark.parametrize("rpm", [700, 2000, 4000])
@pytest.mark.parametrize("throttle", [14.0, 30.0, 89.0])
@pytest.mark.parametrize("choke", [25.0, 90.0])
def test_state_is_the_one_a_general_solver_finds(rpm: float, throttle: float, choke: float) -> None:
    path, engine, angle = PLOVER.air_path, PLOVER.engine, radians(throttle)
    warm = manifold_temperature(engine, SEA.temperature)

    def flow(area: float, before: float, behind: float) -> float:
        return mass_flow(area, before, behind, 288.15, gas_constant=SEA.gas_constant)

    def balance(pressures: list[float]) -> list[float]:
        horn, below, throat, manifold = np.exp(pressures).tolist()
        taken = air_demand(engine, rpm * RPM, manifold, warm, 101_325.0)
        before = throttle_pressure(path, below, throat)
        return [
            flow(path.cleaner_area, 101_325.0, horn) - taken,
            flow(choke_area(path, radians(choke)), horn, below) - taken,
            flow(venturi_area(path), below, throat) - taken,
            throttle_flow(path, angle, before, manifold, SEA) - taken,
        ]

    state = solve(engine, path, SEA, rpm * RPM, angle, choke_angle=radians(choke))
    found = state.horn_pressure, state.choke_pressure, state.venturi_pressure
    answer = np.log([*found, state.manifold_pressure])
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
    assert all(isfinite(each) for each in state)
    balance = through + state.leak_flow - state.engine_flow
    assert balance == pytest.approx(0.0, abs=1e-9 * state.engine_flow)


def test_pressure_falls_all_the_way_to_the_throat_and_comes_back_below() -> None:
    state = breathe(PLOVER, SEA, 3000 * RPM, OPEN)
    assert state.ambient_pressure > state.horn_pressure > state.choke_pressure
    assert state.choke_pressure > state.throttle_pressure > state.venturi_pressure
    assert state.venturi_pressure > state.booster_pressure


# The throttle chokes at idle: what is below no longer matters (first principles).
def test_idle_air_does_not_depend_on_the_manifold() -> None:
    flows = [breathe(PLOVER, SEA, rpm * RPM, radians(13.0)).engine_flow for rpm in (700, 1000)]
    assert flows[1] == pytest.approx(flows[0], rel=1e-3)


# Tens of inches of water at the booster, 1 to 3 inHg in all: common practice, no source.
@pytest.mark.parametrize("rig", CARDED, ids=lambda rig: rig.name)
def test_wide_open_depression_is_what_a_booster_shows(rig: Rig) -> None:
    state = breathe(rig, SEA, 4000 * RPM, OPEN)
    assert 20 < state.booster_depression / INCH_OF_WATER < 60
    assert 1 < state.manifold_vacuum / INCH_OF_MERCURY < 3


def test_opening_the_throttle_loses_vacuum_and_gains_air() -> None:
    states = [breathe(PLOVER, SEA, 2000 * RPM, angle) for angle in linspace(0.2, 1.3, 40)]
    assert np.all(np.diff([each.manifold_vacuum for each in states]) < 0)
    assert np.all(np.diff([each.engine_flow for each in states]) > 0)


def test_altitude_takes_air_away() -> None:
    heights = [Weather.at(altitude) for altitude in (0.0, 1000.0, 2000.0, 3000.0)]
    flows = [breathe(PLOVER, weather, 2500 * RPM, OPEN).engine_flow for weather in heights]
    assert np.all(np.diff(flows) < 0)


def test_choke_deepens_the_depression() -> None:
    engine, path, angle = PLOVER.engine, PLOVER.air_path, radians(20.0)
    states = [
        solve(engine, path, SEA, 150 * RPM, angle, choke_angle=radians(choke))
        for choke in (90.0, 60.0, 40.0, 20.0)
    ]
    assert np.all(np.diff([each.booster_depression for each in states]) > 0)


# Cranking on a shut choke draws tens of inches of water: common practice, no source.
@pytest.mark.parametrize("rig", CARDED, ids=lambda rig: rig.name)
def test_shut_choke_makes_a_cranking_depression(rig: Rig) -> None:
    state = solve(rig.engine, rig.air_path, SEA, 200 * RPM, radians(17.0), choke_angle=0.0)
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


def test_engine_at_rest_is_refused() -> None:
    with pytest.raises(RangeError, match="speed must be positive"):
        breathe(PLOVER, SEA, 0.0, 0.3)


def test_area_past_the_throttle_holds_the_clearance() -> None:
    shut = throttle_area(PLOVER.air_path, 0.0)
    assert shut == pytest.approx(2 * 0.85 * PLOVER.air_path.throttle_leak)

"""Whatever the weather, the throttle and the fault: an answer that balances, or a named refusal.

And where the parts are whole there is always an answer.
"""

from math import isfinite

import pytest
from fuelcircuits import faults
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import ConvergenceError
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network import solving as network
from fuelcircuits.physics.network.pressures import EACH, SHARED
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.network.state import State
from fuelcircuits.physics.openings.plate import OPEN
from hypothesis import given
from hypothesis import strategies as st

from tests.places import RIGS

PLOVER, DUNLIN = read_rig(RIGS / "plover.toml"), read_rig(RIGS / "dunlin.toml")
BOTH = st.sampled_from([PLOVER, DUNLIN])
SHARE = st.floats(0.0, 1.0)
ALTITUDE, TEMPERATURE = st.floats(0.0, 3000.0), st.floats(243.15, 323.15)
ROW = [0.0, 0.2, 0.4, 0.7, 1.0]
PETROL = Fuel()


def solved(
    rig: Rig, weather: Weather, turn: float, now: Settings, fuel: Fuel = PETROL
) -> list[State]:
    """Return a row of points from closed to wide open throttle, at speeds that `turn` shifts."""
    closed = rig.air_path.throttle_closed_angle
    idle, most = rig.engine.idle_speed, rig.engine.highest_speed
    return [
        network.solve(
            rig,
            weather,
            fuel,
            idle + (most - idle) * ((7 * share + turn) % 1.0),
            closed + (OPEN - closed) * share**2,
            settings=now,
        )
        for share in ROW
    ]


def balanced(states: list[State]) -> bool:
    """Tell whether all numbers are numbers, and all fuel and air that enter also leave."""
    return all(map(_balanced, states))


def _balanced(state: State) -> bool:
    fuel = abs(sum(state.fuel_by_circuit.values()) - state.fuel_flow)
    f = state.flows
    air = abs(f.cleaner + f.leak - f.inside_vent - state.air_flow)
    numbers = all(isfinite(each) for each in state.unknowns)
    return numbers and fuel <= 1e-8 * max(state.fuel_flow, 1e-5) and air <= 1e-8 * state.air_flow


@given(BOTH, ALTITUDE, TEMPERATURE, SHARE, SHARE)
def test_whole_carburettor_balances_anywhere(
    rig: Rig, altitude: float, temperature: float, turn: float, ethanol: float
) -> None:
    assert balanced(
        solved(rig, Weather.at(altitude, temperature), turn, Settings(), Fuel(ethanol=ethanol))
    )


@given(BOTH, TEMPERATURE, SHARE, SHARE)
def test_choke_balances_at_every_angle(
    rig: Rig, temperature: float, turn: float, share: float
) -> None:
    shut = rig.air_path.choke_closed_angle
    choke = Settings(choke_angle=shut + share * (OPEN - shut))
    assert balanced(solved(rig, Weather.at(0.0, temperature), turn, choke))


@given(BOTH, st.floats(-5e3, 5e3), SHARE)
def test_any_bowl_pressure_gives_a_number_and_no_fuel_backwards(
    rig: Rig, gauge: float, turn: float
) -> None:
    held = Settings(bowl_pressure=Weather.at().pressure + gauge)
    for state in solved(rig, Weather.at(0.0, 293.15), turn, held):
        assert isfinite(state.ratio)
        assert isfinite(state.mixture)
        assert state.fuel_flow > -2e-6  # kg/s, a hundredth of idle fuel, next to standstill


@pytest.mark.parametrize("rig", [PLOVER, DUNLIN], ids=["plover", "dunlin"])
@pytest.mark.parametrize("severity", [0.5, 1.0])
def test_every_single_fault_has_an_answer(rig: Rig, severity: float) -> None:
    for name in sorted(faults.fitting(rig)):
        now = faults.settings(rig, name, severity)
        states = solved(faults.apply(rig, name, severity), Weather.at(800.0, 283.15), 0.4, now)
        assert balanced(states), name


@given(BOTH, st.data(), ALTITUDE, TEMPERATURE, SHARE)
def test_two_faults_balance_or_say_what_does_not(
    rig: Rig, data: st.DataObject, altitude: float, temperature: float, turn: float
) -> None:
    fitting = st.sampled_from(sorted(faults.fitting(rig)))
    first, second = data.draw(fitting), data.draw(fitting)
    here, there = data.draw(SHARE), data.draw(SHARE)
    bad = faults.apply(faults.apply(rig, first, here), second, there)
    now = faults.settings(bad, second, there, healthy=faults.settings(rig, first, here))
    refused, states = "", list[State]()
    try:
        states = solved(bad, Weather.at(altitude, temperature), turn, now)
    except ConvergenceError as error:
        refused = str(error)
    assert balanced(states) if states else refused.startswith((*SHARED, *EACH))

"""One state from a state nearby: the answer that a first guess leads to, in fewer balances."""

from dataclasses import replace
from functools import cache
from typing import Any

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network import solving as network
from fuelcircuits.physics.network.balance import Balance
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.network.state import State
from fuelcircuits.physics.numerics.interpolation import linspace
from fuelcircuits.physics.openings.plate import OPEN

from tests.places import RIGS

PLOVER, DUNLIN = (read_rig(RIGS / f"{name}.toml") for name in ("plover", "dunlin"))
BOTH = pytest.mark.parametrize("rig", [PLOVER, DUNLIN], ids=["plover", "dunlin"])
AIR, PETROL = Weather.at(temperature=293.15), Fuel()
STARVED = replace(PLOVER, low_speed=replace(PLOVER.low_speed, jet_bore=0.4e-3))


@cache
def idle(rig: Rig) -> State:
    return network.curb_idle(rig, AIR, PETROL)


def flat(numbers: Any) -> list[float]:
    """Return the numbers of nested tuples."""
    if isinstance(numbers, float):
        return [numbers]
    return [number for each in numbers for number in flat(each)]


def alike(ours: State, theirs: State) -> None:
    """Hold two states together to a millionth; small flows to a millionth of an idle jet's."""
    assert ours.speed == pytest.approx(theirs.speed, rel=1e-9)
    assert ours.throttle_angle == pytest.approx(theirs.throttle_angle, rel=1e-9)
    assert ours.mixture == pytest.approx(theirs.mixture, rel=1e-6)
    for one, two in zip(ours.pressures, theirs.pressures, strict=True):
        assert one == pytest.approx(two, rel=1e-9)
    assert flat(ours.flows) == pytest.approx(flat(theirs.flows), rel=1e-6, abs=1e-10)


@pytest.fixture
def slopes_learnt(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """Note each time that slopes are learnt, by the number of unknowns."""
    noted: list[int] = []
    learn = Balance.slopes

    def slopes(self: Balance, unknowns: list[float], here: object) -> list[list[float]]:
        noted.append(len(unknowns))
        return learn(self, unknowns, here)  # type: ignore[arg-type]

    monkeypatch.setattr(Balance, "slopes", slopes)
    return noted


@BOTH
def test_a_slider_that_moves_on_and_on_stays_with_the_guess(rig: Rig) -> None:
    stop, turning = idle(rig).throttle_angle, idle(rig).speed
    state = idle(rig)
    for share in linspace(0.0, 1.0, 40)[1:]:
        angle, speed = stop + (OPEN - stop) * share**2, turning + 250.0 * share
        state = network.solve(rig, AIR, PETROL, speed, angle, start=state)
        alike(state, network.solve(rig, AIR, PETROL, speed, angle))


def test_a_step_nearby_needs_no_slopes_of_its_own(slopes_learnt: list[int]) -> None:
    near = network.solve(PLOVER, AIR, PETROL, 200.0, 0.4)
    assert slopes_learnt
    slopes_learnt.clear()
    network.solve(PLOVER, AIR, PETROL, 201.0, 0.402, start=near)
    assert not slopes_learnt


def test_a_start_without_slopes_learns_them(slopes_learnt: list[int]) -> None:
    near = network.solve(PLOVER, AIR, PETROL, 200.0, 0.4)._replace(inverse=None)
    slopes_learnt.clear()
    found = network.solve(PLOVER, AIR, PETROL, 203.0, 0.41, start=near)
    assert slopes_learnt
    alike(found, network.solve(PLOVER, AIR, PETROL, 203.0, 0.41))


def test_a_curb_idle_is_a_start_too_and_its_slopes_with_it(slopes_learnt: list[int]) -> None:
    home = idle(PLOVER)
    slopes_learnt.clear()
    found = network.solve(PLOVER, AIR, PETROL, home.speed, home.throttle_angle, start=home)
    assert not slopes_learnt
    alike(found, home)


def test_a_start_from_far_away_is_left_to_the_guess() -> None:
    far, choked = network.solve(PLOVER, AIR, PETROL, 400.0, OPEN), Settings(choke_angle=0.4)
    found = network.solve(PLOVER, AIR, PETROL, 75.0, 0.25, settings=choked, start=far)
    alike(found, network.solve(PLOVER, AIR, PETROL, 75.0, 0.25, settings=choked))


def test_barrels_that_come_to_differ_start_from_those_alike_and_back() -> None:
    same = network.solve(PLOVER, AIR, PETROL, 200.0, 0.4)
    other = network.solve(PLOVER, AIR, PETROL, 200.0, 0.4, other=STARVED, start=same)
    alike(other, network.solve(PLOVER, AIR, PETROL, 200.0, 0.4, other=STARVED))
    alike(network.solve(PLOVER, AIR, PETROL, 200.0, 0.4, start=other), same)


@BOTH
def test_idle_speed_from_a_state_nearby_is_that_from_a_guess(rig: Rig) -> None:
    stop = idle(rig).throttle_angle
    for near, turned in ((0.0, 0.005), (0.02, 0.03)):
        start = network.solve_for_speed(rig, AIR, PETROL, stop + near)
        found = network.solve_for_speed(rig, AIR, PETROL, stop + turned, start=start)
        alike(found, network.solve_for_speed(rig, AIR, PETROL, stop + turned))


@BOTH
def test_a_stop_is_found_from_a_state_nearby(rig: Rig) -> None:
    near = network.solve(rig, AIR, PETROL, 80.0, 0.25)
    alike(network.curb_idle(rig, AIR, PETROL, start=near), idle(rig))

"""Starts made of solved states lie where they should, and change no answer."""

from functools import cache

import numpy as np
import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.balance import Balance
from fuelcircuits.physics.network.posing import place, pose
from fuelcircuits.physics.network.settings import WARM
from fuelcircuits.physics.network.solving import solve
from fuelcircuits.physics.network.starts import afresh, moved, through
from fuelcircuits.physics.network.state import State

from tests.places import RIGS

RIG, AIR, PETROL, ANGLE = read_rig(RIGS / "plover.toml"), Weather.at(), Fuel(), 0.35
PLACES = (150.0, 170.0, 200.0)


@cache
def at(speed: float) -> State:
    return solve(RIG, AIR, PETROL, speed, ANGLE)


def off(start: State) -> float:
    """Return by how much a start's pressures lie off those of the state there, at most [Pa]."""
    there = at(180.0).unknowns
    return max(abs(a - b) for a, b in zip(start.unknowns, there, strict=True))


def test_through_three_states_leads_nearer_than_through_two_and_these_than_one() -> None:
    # Lagrange: the curve through all values of a parabola is that parabola.
    states, places = [at(each) for each in PLACES], list(PLACES)
    offs = [off(through(states[:count], places[:count], 180.0)) for count in (1, 2, 3)]
    assert offs[2] < 0.3 * offs[1] < 0.3 * 0.5 * offs[0]
    line = [
        state._replace(unknowns=[3.0 * speed**2 + 1.0])
        for state, speed in zip(states, places, strict=True)
    ]
    assert through(line, places, 180.0).unknowns == pytest.approx([3.0 * 180.0**2 + 1.0])
    assert through(states, places, 180.0).speed == pytest.approx(180.0)


def test_a_start_is_moved_as_another_state_was_and_keeps_the_later_slopes() -> None:
    before, after = at(150.0), at(170.0)
    start = moved(before, before, after)
    assert start.unknowns == pytest.approx(after.unknowns)
    assert start.speed == pytest.approx(after.speed)
    assert start.inverse is after.inverse


def test_no_pressure_of_a_start_falls_below_half() -> None:
    one, two = at(150.0), at(170.0)
    drained = two._replace(unknowns=[0.0 * each for each in two.unknowns])
    half = [0.5 * each for each in one.unknowns]
    assert moved(one, two, drained).unknowns == pytest.approx(half)
    assert through([one, drained], [150.0, 170.0], 170.0).unknowns == pytest.approx(half)


def test_a_state_that_is_solved_afresh_is_the_same_with_slopes_of_its_own() -> None:
    state = at(170.0)
    again = solve(RIG, AIR, PETROL, 170.0, ANGLE, start=afresh(state))
    assert again.unknowns == pytest.approx(state.unknowns, rel=1e-9)
    of = pose(RIG, AIR, PETROL, WARM)
    balance = Balance(of, place(of, 170.0, ANGLE))
    slopes = np.array(balance.slopes(again.unknowns, balance.left(again.unknowns)))
    assert again.inverse is not None
    unit = np.array(again.inverse) @ slopes
    assert np.abs(unit - np.eye(len(unit))).max() < 0.02

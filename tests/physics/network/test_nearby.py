"""One state from a state nearby: the answer that the solver for many points gives."""

from functools import cache

import numpy as np
import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network import nearby
from fuelcircuits.physics.network import solving as network
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings
from fuelcircuits.physics.network.state import State
from fuelcircuits.physics.openings.plate import OPEN

from tests.places import RIGS

PLOVER, DUNLIN = (read_rig(RIGS / f"{name}.toml") for name in ("plover", "dunlin"))
BOTH = pytest.mark.parametrize("rig", [PLOVER, DUNLIN], ids=["plover", "dunlin"])
AIR, PETROL = Weather.at(temperature=293.15), Fuel()


@cache
def idle(rig: Rig) -> State:
    return network.curb_idle(rig, AIR, PETROL)


def alike(ours: State, theirs: State) -> None:
    """Hold two states together to a millionth; small flows to a millionth of an idle jet's."""
    np.testing.assert_allclose(ours.unknowns, theirs.unknowns, rtol=1e-9)
    assert np.shape(ours.mixture) == np.shape(theirs.mixture)
    assert float(ours.mixture) == pytest.approx(float(theirs.mixture), rel=1e-6)
    for one, two in zip(ours.flows, theirs.flows, strict=True):
        np.testing.assert_allclose(np.asarray(one), np.asarray(two), rtol=1e-6, atol=1e-10)


@BOTH
def test_a_slider_that_moves_on_and_on_stays_with_the_other_solver(rig: Rig) -> None:
    stop, turning = float(idle(rig).throttle_angle), float(idle(rig).speed)
    state = network.solve(rig, AIR, PETROL, turning, stop)
    for share in np.linspace(0.0, 1.0, 40)[1:]:
        angle, speed = stop + (OPEN - stop) * share**2, turning + 250.0 * share
        state = network.solve(rig, AIR, PETROL, speed, angle, start=state)
        alike(state, network.solve(rig, AIR, PETROL, speed, angle))


@BOTH
def test_a_start_without_slopes_learns_them(rig: Rig) -> None:
    near = network.solve(rig, AIR, PETROL, 200.0, 0.4)
    found = network.solve(rig, AIR, PETROL, 203.0, 0.41, start=near._replace(slopes=None))
    alike(found, network.solve(rig, AIR, PETROL, 203.0, 0.41))


def test_a_start_from_far_away_is_left_to_the_other_solver() -> None:
    far, choked = network.solve(PLOVER, AIR, PETROL, 400.0, OPEN), Settings(choke_angle=0.4)
    found = network.solve(PLOVER, AIR, PETROL, 75.0, 0.25, settings=choked, start=far)
    alike(found, network.solve(PLOVER, AIR, PETROL, 75.0, 0.25, settings=choked))


def test_a_step_too_long_gives_up(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(nearby, "_REACH", 1e-3)
    near = network.solve(PLOVER, AIR, PETROL, 200.0, 0.4)
    found = network.solve(PLOVER, AIR, PETROL, 203.0, 0.41, start=near)
    alike(found, network.solve(PLOVER, AIR, PETROL, 203.0, 0.41))


def test_a_curb_idle_is_a_start_too() -> None:
    speed, angle = float(idle(PLOVER).speed), float(idle(PLOVER).throttle_angle) + 0.01
    found = network.solve(PLOVER, AIR, PETROL, speed, angle, start=idle(PLOVER))
    alike(found, network.solve(PLOVER, AIR, PETROL, speed, angle))


def test_a_start_of_another_shape_is_refused() -> None:
    row = network.solve(PLOVER, AIR, PETROL, np.array([200.0, 210.0]), 0.4)
    with pytest.raises(RangeError, match="9 unknowns at 1 points, got 9 at 2"):
        network.solve(PLOVER, AIR, PETROL, 203.0, 0.41, start=row)
    with pytest.raises(RangeError, match="10 unknowns at 2 points, got 9 at 2"):
        network.solve_for_speed(PLOVER, AIR, PETROL, np.array([0.25, 0.26]), start=row)


def test_points_in_a_row_keep_their_shape() -> None:
    near = network.solve(PLOVER, AIR, PETROL, np.array([200.0]), 0.4)
    found = network.solve(PLOVER, AIR, PETROL, np.array([203.0]), 0.41, start=near)
    assert found.mixture.shape == (1,)
    assert found.flows.nozzle.fuel.shape == (1, 1)


def test_slopes_tell_what_a_little_more_pressure_does() -> None:
    """Against the balance itself, shifted by hand."""
    near = network.solve(PLOVER, AIR, PETROL, 200.0, 0.4)
    learnt = network.solve(PLOVER, AIR, PETROL, 200.0, 0.4, start=near._replace(slopes=None))
    assert near.slopes is not None
    assert learnt.slopes is not None
    np.testing.assert_allclose(learnt.slopes, near.slopes, rtol=1e-3, atol=1e-9)

"""The balance in plain floats: the same numbers as the balance for many points."""

from functools import cache
from typing import Any

import numpy as np
import pytest
from fuelcircuits import faults
from fuelcircuits.cards import read_rig
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network import solving as network
from fuelcircuits.physics.network.balance import residuals, stacked, unstacked
from fuelcircuits.physics.network.circuit_flows import flows
from fuelcircuits.physics.network.circuit_pressures import pressures
from fuelcircuits.physics.network.plain_balance import plain_balance
from fuelcircuits.physics.network.plain_flows import plain
from fuelcircuits.physics.network.posing import pose
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.settings import Settings
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from tests.places import RIGS

CARDS = {name: read_rig(RIGS / f"{name}.toml") for name in ("plover", "dunlin")}
AIR, PETROL = Weather.at(temperature=293.15), Fuel(ethanol=0.1)
IMPOSED = Settings(bowl_pressure=99e3, bowl_level=-5e-3)


@cache
def curve(name: str) -> Any:
    """A rig's own mixture curve, whose pressures the cases start from."""
    return network.sweep(CARDS[name], AIR, PETROL, count=20)


def agree(rig: Rig, settings: Settings, at: tuple[float, float], unknowns: NDArray[Any]) -> None:
    """Hold both balances together at some pressures."""
    problem, points, _ = pose(rig, AIR, PETROL, settings, speed=at[0], angle=at[1])
    left, measure = residuals(problem, "", unknowns[:, None, None], points)
    ours = plain_balance(plain(problem, points), problem.alike, unknowns.tolist())
    np.testing.assert_allclose(ours.imbalance, left[:, 0, 0], rtol=1e-9, atol=1e-15)
    np.testing.assert_allclose(ours.measure, measure[:, 0], rtol=1e-12)
    assert ours.error == pytest.approx(np.max(np.abs(left[:, 0, 0] / measure[:, 0])), rel=1e-9)


@given(st.sampled_from(sorted(CARDS)), st.integers(0, 19), st.data())
def test_any_pressures_leave_the_same_over(name: str, place: int, data: st.DataObject) -> None:
    """Pressures may stand anywhere: flows turn back, wells run empty, ports choke."""
    state = curve(name)
    shares = data.draw(st.lists(st.floats(0.6, 1.05), min_size=9, max_size=9))
    near = data.draw(st.booleans())
    unknowns = state.unknowns[:, place] * (1.0 + 0.01 * (np.array(shares) - 1) * near)
    unknowns = unknowns if near else unknowns * np.array(shares)
    settings = data.draw(st.sampled_from([Settings(), IMPOSED]))
    at = float(state.speed[place]), float(state.throttle_angle[place])
    agree(CARDS[name], settings, at, unknowns)


@pytest.mark.parametrize("name", sorted(CARDS))
def test_every_fault_that_leaves_the_barrels_alike_is_felt_alike(name: str) -> None:
    state, rig = curve(name), CARDS[name]
    for fault in sorted(faults.fitting(rig)):
        changed, settings = faults.apply(rig, fault, 1.0), faults.settings(rig, fault, 1.0)
        for place in (0, 6, 19):
            at = float(state.speed[place]), float(state.throttle_angle[place])
            agree(changed, settings, at, state.unknowns[:, place])


@pytest.mark.parametrize("name", sorted(CARDS))
def test_rows_of_flows_are_put_back_as_they_were(name: str) -> None:
    state, rig = curve(name), CARDS[name]
    problem, points, _ = pose(
        rig, AIR, PETROL, Settings(), speed=state.speed, angle=state.throttle_angle
    )
    found = flows(problem, pressures(problem, state.unknowns[:, None, :]), points)
    again = unstacked(stacked(found), problem.barrels, found.power_share)
    for one, two in zip(found, again, strict=True):
        first, second = np.asarray(one), np.asarray(two)
        np.testing.assert_array_equal(first, np.broadcast_to(second, first.shape))

import dataclasses

import numpy as np
import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.circuits.bowl_filling import fill
from fuelcircuits.physics.circuits.float_bowl import at_level, inlet_capacity, steady
from fuelcircuits.physics.matter.fuel import Fuel, density
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from tests.places import RIGS

PLOVER = read_rig(RIGS / "plover.toml").float_bowl
PETROL = Fuel()
MASS = float(PLOVER.bowl_area * density(PETROL, 288.15))
DEMAND = 20 / 3600
PSI = 6894.757


# scipy: the same balance of flows, integrated by another rule at a tighter tolerance.
def test_level_in_time_is_the_one_scipy_finds() -> None:
    def rate(_: float, level: np.ndarray) -> np.ndarray:
        return (at_level(PLOVER, PETROL, level).inlet_flow - DEMAND) / MASS

    times = np.array([0.0, 1.0, 2.0, 4.0])
    peer = solve_ivp(rate, (0, 4), [20e-3], "LSODA", times, rtol=1e-8, atol=1e-10)
    ours = fill(PLOVER, PETROL, DEMAND, 20e-3, times, relative=1e-9)
    np.testing.assert_allclose(ours.state.level, peer.y[0], atol=2e-8)


def test_level_settles_where_the_steady_balance_puts_it() -> None:
    run = fill(PLOVER, PETROL, DEMAND, 20e-3, [0, 20])
    assert run.state.level[-1] == pytest.approx(steady(PLOVER, PETROL, DEMAND).level, abs=1e-6)


# First principles: below the float the inlet passes all it can and the bowl fills evenly.
def test_empty_bowl_fills_at_the_inlets_capacity() -> None:
    run = fill(PLOVER, PETROL, 0.0, 0.0, [0, 1])
    assert run.state.level[-1] == pytest.approx(inlet_capacity(PLOVER, PETROL) / MASS, rel=1e-9)


# First principles: without supply the bowl empties evenly until the outlet draws air.
def test_bowl_without_supply_empties_evenly() -> None:
    run = fill(PLOVER, PETROL, DEMAND, 25e-3, [0, 2], supply_gauge=0.0)
    assert run.state.level[-1] == pytest.approx(25e-3 - 2 * DEMAND / MASS, rel=1e-9)


def test_starved_bowl_delivers_what_the_inlet_passes() -> None:
    limit = inlet_capacity(PLOVER, PETROL)
    run = fill(PLOVER, PETROL, 2 * limit, 2e-3, [0, 2, 4])
    assert run.delivered[2] - run.delivered[1] == pytest.approx(2 * limit, rel=1e-6)
    assert run.state.level[-1] < 1e-3


def test_leaking_seat_fills_the_bowl_to_the_brim_and_runs_over() -> None:
    worn = dataclasses.replace(PLOVER, seat_leak=2e-6)
    run = fill(worn, PETROL, 0.0, 44e-3, [0, 2, 4])
    assert PLOVER.depth - 1e-3 < run.state.level[-1] <= PLOVER.depth
    assert run.spilled[2] - run.spilled[1] == pytest.approx(2 * run.state.inlet_flow[-1], rel=1e-4)


# First principles: nothing is lost; the bound is 1e-9 of what came in.
@settings(max_examples=5, deadline=None)
@given(
    st.floats(0, 40e-3),
    st.lists(st.floats(0, 0.03), min_size=4, max_size=4),
    st.lists(st.floats(0, 6), min_size=4, max_size=4),
)
def test_volume_balance_closes(level: float, demands: list[float], psi: list[float]) -> None:
    run = fill(PLOVER, PETROL, demands, level, [0, 1, 2, 3], supply_gauge=np.asarray(psi) * PSI)
    left = run.stored - (run.inflow - run.delivered - run.spilled)
    np.testing.assert_allclose(left, 0, atol=1e-9 * max(1e-3, run.inflow[-1]))


def test_runs_side_by_side_are_the_runs_one_by_one() -> None:
    both = fill(PLOVER, PETROL, DEMAND, [10e-3, 30e-3], [0, 3])
    alone = [fill(PLOVER, PETROL, DEMAND, each, [0, 3]) for each in (10e-3, 30e-3)]
    np.testing.assert_allclose(
        both.state.level[-1], [each.state.level[-1] for each in alone], atol=1e-6
    )


def test_course_that_does_not_fit_the_times_is_refused() -> None:
    with pytest.raises(RangeError, match="demand must have one value for each time"):
        fill(PLOVER, PETROL, [0.0, 1.0], 10e-3, [0, 1, 2])


def test_level_above_the_brim_is_refused() -> None:
    with pytest.raises(RangeError, match="level above floor must be between"):
        fill(PLOVER, PETROL, DEMAND, 60e-3, [0, 1])


# First principles: what the pump draws and gives back shows in the level, and in nothing else.
def test_fuel_drawn_by_other_ways_lowers_the_bowl_and_balances() -> None:
    times, drawn = np.linspace(0, 4, 9), np.array([0, 0, 1, 2, 2, 2, 1, 0, 0]) * 1e-3
    level = float(steady(PLOVER, PETROL, DEMAND).level)
    run = fill(PLOVER, PETROL, DEMAND, level, times, drawn=drawn, grid=1000, relative=1e-8)
    gained = run.inflow - run.delivered - run.spilled - drawn
    np.testing.assert_allclose(run.stored, gained, atol=1e-9)
    assert run.state.level[4] < level - 1e-5 < run.state.level[0]


# The same run without the short cut.
def test_a_needle_worked_out_beforehand_gives_the_same_level() -> None:
    times, demand = np.linspace(0, 2, 9), np.interp(np.linspace(0, 2, 9), [0.5, 1], [2e-4, 4e-3])
    slow, fast = (fill(PLOVER, PETROL, demand, 30e-3, times, grid=grid) for grid in (0, 1000))
    np.testing.assert_allclose(fast.state.level, slow.state.level, atol=1e-8)
    np.testing.assert_allclose(fast.inflow, slow.inflow, atol=1e-7)


def test_a_needle_worked_out_beforehand_needs_one_supply_pressure() -> None:
    with pytest.raises(RangeError, match="supply must be constant with a grid"):
        fill(PLOVER, PETROL, DEMAND, 20e-3, [0, 1], supply_gauge=[1e4, 2e4], grid=100)

import dataclasses

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.circuits.bowl_filling import Filling, fill
from fuelcircuits.physics.circuits.float_balance import at_level
from fuelcircuits.physics.circuits.float_bowl import inlet_capacity, steady
from fuelcircuits.physics.circuits.float_lever import FloatBowl, supply_to
from fuelcircuits.physics.matter.fuel import Fuel, density
from fuelcircuits.physics.numerics.interpolation import interpolate, linspace
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from tests.places import RIGS

PLOVER = read_rig(RIGS / "plover.toml").float_bowl
PETROL = Fuel()
MASS = PLOVER.bowl_area * density(PETROL, 288.15)
DEMAND = 20 / 3600
PSI = 6894.757


def kept(run: Filling) -> list[float]:
    """Return what has come in less what has gone out by engine and brim [kg]."""
    flows = zip(run.inflow, run.delivered, run.spilled, strict=True)
    return [inflow - delivered - spilled for inflow, delivered, spilled in flows]


def inlet_flow(bowl: FloatBowl, level: float) -> float:
    """Return what the inlet passes at a level [kg/s]."""
    return at_level(bowl, supply_to(bowl, PETROL, None, 288.15, 0.0), level).inlet_flow


# scipy: the same balance of flows, integrated by another rule at a tighter tolerance.
def test_level_in_time_is_the_one_scipy_finds() -> None:
    def rate(_: float, level: list[float]) -> float:
        return (inlet_flow(PLOVER, level[0]) - DEMAND) / MASS

    times = [0.0, 1.0, 2.0, 4.0]
    peer = solve_ivp(rate, (0, 4), [20e-3], "LSODA", times, rtol=1e-8, atol=1e-10)
    ours = fill(PLOVER, PETROL, DEMAND, 20e-3, times, relative=1e-9)
    assert ours.level == pytest.approx(peer.y[0].tolist(), abs=2e-8)


def test_level_settles_where_the_steady_balance_puts_it() -> None:
    run = fill(PLOVER, PETROL, DEMAND, 20e-3, [0, 20])
    assert run.level[-1] == pytest.approx(steady(PLOVER, PETROL, DEMAND).level, abs=1e-6)


# First principles: below the float the inlet passes all it can and the bowl fills evenly.
def test_empty_bowl_fills_at_the_inlets_capacity() -> None:
    run = fill(PLOVER, PETROL, 0.0, 0.0, [0, 1])
    assert run.level[-1] == pytest.approx(inlet_capacity(PLOVER, PETROL) / MASS, rel=1e-9)


# First principles: without supply the bowl empties evenly until the outlet draws air.
def test_bowl_without_supply_empties_evenly() -> None:
    run = fill(PLOVER, PETROL, DEMAND, 25e-3, [0, 2], supply_gauge=0.0)
    assert run.level[-1] == pytest.approx(25e-3 - 2 * DEMAND / MASS, rel=1e-9)


def test_starved_bowl_delivers_what_the_inlet_passes() -> None:
    limit = inlet_capacity(PLOVER, PETROL)
    run = fill(PLOVER, PETROL, 2 * limit, 2e-3, [0, 2, 4])
    assert run.delivered[2] - run.delivered[1] == pytest.approx(2 * limit, rel=1e-6)
    assert run.level[-1] < 1e-3


def test_leaking_seat_fills_the_bowl_to_the_brim_and_runs_over() -> None:
    worn = dataclasses.replace(PLOVER, seat_leak=2e-6)
    run = fill(worn, PETROL, 0.0, 44e-3, [0, 2, 4])
    assert PLOVER.depth - 1e-3 < run.level[-1] <= PLOVER.depth
    inflow = inlet_flow(worn, run.level[-1])
    assert run.spilled[2] - run.spilled[1] == pytest.approx(2 * inflow, rel=1e-4)


# First principles: nothing is lost; the bound is 1e-9 of what came in.
@settings(max_examples=5, deadline=None)
@given(
    st.floats(0, 40e-3),
    st.lists(st.floats(0, 0.03), min_size=4, max_size=4),
    st.lists(st.floats(0, 6), min_size=4, max_size=4),
)
def test_volume_balance_closes(level: float, demands: list[float], psi: list[float]) -> None:
    gauges = [each * PSI for each in psi]
    run = fill(PLOVER, PETROL, demands, level, [0, 1, 2, 3], supply_gauge=gauges)
    assert run.stored == pytest.approx(kept(run), rel=0, abs=1e-9 * max(1e-3, run.inflow[-1]))


def test_course_that_does_not_fit_the_times_is_refused() -> None:
    with pytest.raises(RangeError, match="demand must have one value for each time"):
        fill(PLOVER, PETROL, [0.0, 1.0], 10e-3, [0, 1, 2])


def test_level_above_the_brim_is_refused() -> None:
    with pytest.raises(RangeError, match="level above floor must be between"):
        fill(PLOVER, PETROL, DEMAND, 60e-3, [0, 1])


# First principles: what the pump draws and gives back shows in the level, and in nothing else.
def test_fuel_drawn_by_other_ways_lowers_the_bowl_and_balances() -> None:
    times, drawn = linspace(0.0, 4.0, 9), [1e-3 * gram for gram in (0, 0, 1, 2, 2, 2, 1, 0, 0)]
    level = steady(PLOVER, PETROL, DEMAND).level
    run = fill(PLOVER, PETROL, DEMAND, level, times, drawn=drawn, grid=1000, relative=1e-8)
    gained = [more - away for more, away in zip(kept(run), drawn, strict=True)]
    assert run.stored == pytest.approx(gained, rel=0, abs=1e-9)
    assert run.level[4] < level - 1e-5 < run.level[0]


# The same run without the short cut.
def test_a_needle_worked_out_beforehand_gives_the_same_level() -> None:
    times = linspace(0.0, 2.0, 9)
    demand = [interpolate(now, [0.5, 1.0], [2e-4, 4e-3]) for now in times]
    slow, fast = (fill(PLOVER, PETROL, demand, 30e-3, times, grid=grid) for grid in (0, 1000))
    assert fast.level == pytest.approx(slow.level, rel=1e-7, abs=1e-8)
    assert fast.inflow == pytest.approx(slow.inflow, rel=1e-7, abs=1e-7)


def test_a_needle_worked_out_beforehand_needs_one_supply_pressure() -> None:
    with pytest.raises(RangeError, match="supply must be constant with a grid"):
        fill(PLOVER, PETROL, DEMAND, 20e-3, [0, 1], supply_gauge=[1e4, 2e4], grid=100)

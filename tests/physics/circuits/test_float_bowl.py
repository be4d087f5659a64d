import dataclasses
import math
from itertools import pairwise
from typing import Any

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.circuits import float_bowl
from fuelcircuits.physics.circuits.float_balance import at_level
from fuelcircuits.physics.circuits.float_bowl import at_drop, steady
from fuelcircuits.physics.circuits.float_lever import FloatBowl, Supply, closing_moment, supply_to
from fuelcircuits.physics.matter.fuel import Fuel, density
from fuelcircuits.physics.numerics.interpolation import linspace
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import dblquad
from scipy.optimize import brentq

from tests.places import RIGS

PLOVER, DUNLIN = (read_rig(RIGS / f"{name}.toml").float_bowl for name in ("plover", "dunlin"))
PETROL = Fuel()
PSI, GRAVITY, HOUR = 6894.757, 9.80665, 3600.0
DENSITY = density(PETROL, 288.15)
FULL_LOAD = 20 / HOUR
"""Petrol of a 3.1 l six at full load [kg/s]: 60 kW at 0.33 kg/kWh; common practice."""
PRESSURES, DEMANDS = st.floats(2 * PSI, 8 * PSI), st.floats(0, 35 / HOUR)


def changed(**entries: Any) -> FloatBowl:
    return dataclasses.replace(PLOVER, **entries)


def supply_of(bowl: FloatBowl) -> Supply:
    """Return petrol of 15 degC before the inlet, under the card's pressure."""
    return supply_to(bowl, PETROL, None, 288.15, 0.0)


# --- moments -------------------------------------------------------------------------------


def moment_by_quadrature(level: float, angle: float) -> float:
    """Moment of the buoyancy on both floats about the fulcrum, summed over the outline (scipy)."""
    half, radius = (PLOVER.float_length - PLOVER.float_height) / 2, PLOVER.float_height / 2
    centre = (
        PLOVER.float_arm * math.cos(angle),
        PLOVER.shut_height - PLOVER.float_arm * math.sin(angle) - level,
    )

    def wet(across: float, along: float) -> float:
        x = centre[0] + along * math.cos(angle) + across * math.sin(angle)
        y = centre[1] - along * math.sin(angle) + across * math.cos(angle)
        return x if y < 0 else 0.0

    def reach(along: float) -> float:
        return math.sqrt(max(radius**2 - max(abs(along) - half, 0) ** 2, 0))

    ends = half + radius
    found = dblquad(wet, -ends, ends, lambda u: -reach(u), reach, epsabs=1e-9, epsrel=1e-5)[0]
    return float(2 * PLOVER.float_width * DENSITY * GRAVITY * found)


# scipy: the moments summed over the float's outline, and Newton's law for the rest.
@pytest.mark.parametrize(("level", "drop"), [(30e-3, 0.5e-3), (27e-3, 3e-3), (24e-3, 7e-3)])
def test_closing_moment_is_buoyancy_less_weights_less_needle(level: float, drop: float) -> None:
    angle = math.asin(drop / PLOVER.float_arm)
    state = at_drop(PLOVER, PETROL, drop)
    needle = state.needle_force + PLOVER.needle_mass * GRAVITY
    arms = PLOVER.float_mass * GRAVITY * PLOVER.float_arm + needle * PLOVER.needle_arm
    expected = moment_by_quadrature(level, angle) - arms * math.cos(angle)
    supply = supply_of(PLOVER)
    assert closing_moment(PLOVER, supply, level, angle) == pytest.approx(expected, abs=1e-6)


@given(DEMANDS, PRESSURES)
def test_steady_state_leaves_no_moment_and_no_flow_over(demand: float, gauge: float) -> None:
    state = steady(PLOVER, PETROL, demand, gauge)
    assert state.residual == pytest.approx(0, abs=1e-13)
    assert state.inlet_flow == pytest.approx(demand, abs=1e-15)


# scipy: the same balance by Brent's rule.
@pytest.mark.parametrize("level", [22e-3, 25e-3, 28e-3, 30.5e-3])
def test_drop_at_a_level_is_the_one_brent_finds(level: float) -> None:
    supply = supply_of(PLOVER)
    stop = math.asin(PLOVER.drop_stop / PLOVER.float_arm)
    angle = brentq(lambda x: closing_moment(PLOVER, supply, level, x), 0, stop, xtol=1e-14)
    assert at_level(PLOVER, supply, level).lever_angle == pytest.approx(angle, abs=1e-12)


@given(st.floats(0, 1))
def test_drop_and_level_lead_back_to_each_other(share: float) -> None:
    there = at_drop(PLOVER, PETROL, share * PLOVER.drop_stop)
    back = at_level(PLOVER, supply_of(PLOVER), there.level)
    assert back.drop == pytest.approx(there.drop, abs=1e-12)


# --- limits --------------------------------------------------------------------------------


# Archimedes: with no needle to hold, a float displaces its own weight.
def test_float_without_needle_displaces_its_own_weight() -> None:
    state = at_drop(changed(needle_mass=0.0), PETROL, 0.0, 0.0)
    assert state.buoyancy == pytest.approx(PLOVER.float_mass * GRAVITY, rel=1e-12)


# First principles: with the needle shut, pressure times area, and the lever.
def test_shut_needle_asks_for_the_buoyancy_the_lever_says() -> None:
    state = steady(changed(needle_mass=0.0), PETROL, 0.0)
    force = PLOVER.fuel_pressure * math.pi / 4 * PLOVER.seat_bore**2
    lift = PLOVER.float_mass * GRAVITY + force * PLOVER.needle_arm / PLOVER.float_arm
    assert state.needle_force == pytest.approx(force, rel=1e-12)
    assert state.buoyancy == pytest.approx(lift, rel=1e-12)


# First principles: moving float and fulcrum down by a length moves the level down by it.
def test_float_setting_shifts_the_level_one_to_one() -> None:
    lower = changed(float_setting=PLOVER.float_setting + 1.5e-3)
    before, after = (steady(bowl, PETROL, FULL_LOAD).level for bowl in (PLOVER, lower))
    assert after - before == pytest.approx(-1.5e-3, abs=1e-12)


# First principles: Bernoulli with the card's discharge coefficient through the whole bore.
def test_capacity_with_a_generous_stop_is_that_of_the_bore() -> None:
    free = changed(drop_stop=12e-3)
    ideal = math.pi / 4 * free.seat_bore**2 * math.sqrt(2 * DENSITY * free.fuel_pressure)
    assert float_bowl.inlet_capacity(free, PETROL) == pytest.approx(0.7 * ideal, rel=1e-12)


def test_float_rests_on_its_stop_in_an_empty_bowl_and_on_the_seat_in_a_full_one() -> None:
    empty, full = (at_level(PLOVER, supply_of(PLOVER), level) for level in (0.0, PLOVER.depth))
    assert empty.drop == pytest.approx(PLOVER.drop_stop, abs=1e-15)
    assert full.drop == 0
    assert empty.residual < 0 < full.residual


# First principles: the tilted float's far end touches when its lowest point is at the floor.
def test_floor_stops_a_float_that_is_set_too_low() -> None:
    low = changed(float_setting=25e-3)
    state = at_level(low, supply_of(low), 0.0)
    straight = low.float_length - low.float_height
    lowest = low.shut_height - state.drop - straight / 2 * math.sin(state.lever_angle)
    assert lowest - low.float_height / 2 == pytest.approx(0, abs=1e-12)


# First principles: the same drop across the inlet is the same inlet.
def test_bowl_pressure_counts_against_the_pump() -> None:
    raised = steady(PLOVER, PETROL, FULL_LOAD, PLOVER.fuel_pressure + 2e3, bowl_gauge=2e3)
    assert raised.level == pytest.approx(steady(PLOVER, PETROL, FULL_LOAD).level, abs=1e-12)


def test_inlet_runs_backwards_under_bowl_pressure() -> None:
    assert at_drop(PLOVER, PETROL, 4e-3, 0.0, bowl_gauge=5e3).inlet_flow < 0


# --- trends and the teaching rig -------------------------------------------------------------


# First principles, the direction of each effect.
@pytest.mark.parametrize(
    ("entries", "sign"),
    [
        ({"fuel_pressure": 6 * PSI}, 1),
        ({"seat_bore": 2.6e-3}, 1),
        ({"soaked": 0.1}, 1),
        ({"float_mass": 10e-3}, 1),
        ({"float_setting": 8e-3}, 1),
        ({"needle_arm": 7e-3}, -1),
    ],
)
def test_change_moves_the_level_the_right_way(entries: dict[str, float], sign: int) -> None:
    before, after = (steady(bowl, PETROL, 1 / HOUR).level for bowl in (PLOVER, changed(**entries)))
    assert 0.2e-3 < sign * (after - before) < 4e-3


def test_denser_fuel_stands_lower() -> None:
    before, after = (steady(PLOVER, fuel, 0.0).level for fuel in (PETROL, Fuel(ethanol=0.85)))
    assert after - before < -0.2e-3


@given(PRESSURES)
def test_level_falls_and_float_drops_as_the_engine_draws_more(gauge: float) -> None:
    states = [steady(PLOVER, PETROL, demand, gauge) for demand in linspace(0.0, 35 / HOUR, 20)]
    for before, after in pairwise(states):
        assert before.level > after.level
        assert before.drop < after.drop


def test_inlet_flow_rises_with_the_drop() -> None:
    drops = linspace(0.0, PLOVER.drop_stop, 50)
    flows = [at_drop(PLOVER, PETROL, drop).inlet_flow for drop in drops]
    assert all(before < after for before, after in pairwise(flows))


# The rigs' own design aims, common practice: level about where the card says, less than a
# millimetre for a psi of pump pressure, a starvation demand far above full load.
@pytest.mark.parametrize("bowl", [PLOVER, DUNLIN], ids=["plover", "dunlin"])
def test_rig_stands_at_its_specified_level(bowl: FloatBowl) -> None:
    level = bowl.depth - steady(bowl, PETROL, 1 / HOUR).level
    assert level == pytest.approx(bowl.specified_level, abs=0.1e-3)


@pytest.mark.parametrize("bowl", [PLOVER, DUNLIN], ids=["plover", "dunlin"])
def test_rig_shifts_by_less_than_a_millimetre_for_a_psi(bowl: FloatBowl) -> None:
    levels = [steady(bowl, PETROL, 1 / HOUR, psi * PSI).level for psi in range(3, 8)]
    assert all(0.2e-3 < after - before < 1e-3 for before, after in pairwise(levels))


@pytest.mark.parametrize(("bowl", "litres"), [(PLOVER, 3.1), (DUNLIN, 4.7)])
def test_rig_starves_well_above_full_load(bowl: FloatBowl, litres: float) -> None:
    full = FULL_LOAD * litres / 3.1
    for psi in (4, 5, 6):
        assert 2 * full < float_bowl.starvation_demand(bowl, PETROL, psi * PSI) < 5 * full


# --- starved, flooded, refused ---------------------------------------------------------------


def test_bowl_starves_just_above_its_capacity_and_not_just_below() -> None:
    limit = float_bowl.starvation_demand(PLOVER, PETROL)
    below, above = (steady(PLOVER, PETROL, limit * share) for share in (1 - 1e-9, 1 + 1e-9))
    assert (below.starved, above.starved) == (False, True)
    assert above.level == 0
    assert above.inlet_flow == pytest.approx(limit)


def test_bowl_starves_without_pump_pressure() -> None:
    assert not steady(PLOVER, PETROL, 0.0, 0.0).starved
    assert steady(PLOVER, PETROL, FULL_LOAD, 0.0).starved


def test_leaking_seat_floods_an_idle_bowl_and_not_a_busy_one() -> None:
    leaking = changed(seat_leak=1e-7)
    idle, busy = (steady(leaking, PETROL, demand) for demand in (1e-5, FULL_LOAD))
    assert (idle.flooded, busy.flooded) == (True, False)
    assert idle.level == PLOVER.depth
    assert idle.inlet_flow > 1e-5


def test_drowned_float_floods_the_bowl() -> None:
    state = steady(changed(soaked=0.6), PETROL, 1 / HOUR)
    assert state.flooded
    assert state.inlet_flow > 1 / HOUR


def test_drop_that_no_level_can_hold_is_marked() -> None:
    state = at_drop(changed(soaked=0.9), PETROL, 1e-3)
    assert state.flooded
    assert state.residual < 0


@pytest.mark.parametrize(
    ("entries", "message"),
    [
        ({"seat_bore": -1e-3}, r"seat bore must be between 0\.0005 and 0\.006 m, got -0\.001 m"),
        ({"soaked": math.nan}, r"soaked must be between 0 and 0\.9"),
        ({"float_height": 33e-3}, "float length less height must be between"),
        ({"float_setting": 30e-3}, "shut float above floor must be between"),
        ({"float_arm": 15e-3, "drop_stop": 14e-3}, "drop stop must be between"),
    ],
)
def test_impossible_bowl_is_refused(entries: dict[str, float], message: str) -> None:
    with pytest.raises(RangeError, match=message):
        changed(**entries)


@pytest.mark.parametrize("demand", [-1e-3, math.nan])
def test_impossible_demand_is_refused(demand: float) -> None:
    with pytest.raises(RangeError, match="demand must be between"):
        steady(PLOVER, PETROL, demand)


def test_supply_pressure_below_nought_is_refused() -> None:
    with pytest.raises(RangeError, match="supply pressure must be between"):
        steady(PLOVER, PETROL, 0.0, -1e3)


def test_drop_beyond_the_stop_is_refused() -> None:
    with pytest.raises(RangeError, match="float drop over the most must be between"):
        at_drop(PLOVER, PETROL, PLOVER.drop_stop * 1.01)


def test_level_outside_the_bowl_is_refused() -> None:
    with pytest.raises(RangeError, match="level above floor must be between"):
        at_level(PLOVER, supply_of(PLOVER), PLOVER.depth * 1.01)

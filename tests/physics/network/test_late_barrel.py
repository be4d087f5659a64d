"""Two barrels that differ, the second opened late by a link: from the rig to the network."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from math import pi, radians

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import RangeError
from fuelcircuits.physics.engine.air_path import linked_angle
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network import solving as network
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.state import State
from fuelcircuits.physics.openings.plate import OPEN
from hypothesis import given
from hypothesis import settings as examples
from hypothesis import strategies as st

from tests.places import RIGS

PLOVER = read_rig(RIGS / "plover.toml")
AIR, PETROL = Weather.at(), Fuel()
START = radians(40)
LINKED = replace(PLOVER.air_path, opens_at=START, venturi_bore=29e-3, throttle_bore=36e-3)
CLEAR = replace(PLOVER.low_speed, slot_start=8e-3, screw_turns=0.0)
SECOND = replace(
    PLOVER,
    air_path=LINKED,
    low_speed=CLEAR,
    high_speed=replace(PLOVER.high_speed, jet_bore=1.7e-3),
)
LATE = replace(PLOVER, second=SECOND)


def at(rig: Rig, degrees: float, speed: float = 220.0) -> State:
    return network.solve(rig, AIR, PETROL, speed, radians(degrees))


def test_a_plate_on_the_same_shaft_turns_with_the_first() -> None:
    assert linked_angle(PLOVER.air_path, 0.7) == 0.7


def test_a_linked_plate_waits_and_then_ends_wide_open_with_the_first() -> None:
    closed = LINKED.throttle_closed_angle
    assert linked_angle(LINKED, 0.0) == linked_angle(LINKED, START) == closed
    halfway = (START + OPEN) / 2
    assert linked_angle(LINKED, halfway) == pytest.approx((closed + OPEN) / 2)
    assert linked_angle(LINKED, OPEN) == pytest.approx(OPEN)


def test_a_second_barrel_like_the_first_changes_nothing() -> None:
    alike, told = at(PLOVER, 30), at(replace(PLOVER, second=PLOVER), 30)
    assert told.mixture == pytest.approx(alike.mixture, rel=1e-6)
    assert told.flows.main_jet == pytest.approx((alike.flows.main_jet[0],) * 2, rel=1e-6)


def test_what_is_given_as_other_stands_above_the_rigs_own_second() -> None:
    given = network.solve(LATE, AIR, PETROL, 220.0, radians(70), other=PLOVER)
    assert given.mixture == pytest.approx(at(PLOVER, 70).mixture, rel=1e-6)


def test_until_the_link_pulls_the_second_plate_passes_its_clearance_alone() -> None:
    state = at(LATE, 35)
    assert state.flows.throttle[1] < 0.03 * state.flows.throttle[0]
    assert state.flows.nozzle.fuel[1] == pytest.approx(0.0, abs=1e-9)


def test_wide_open_the_wider_barrel_passes_more_air_and_fuel() -> None:
    state = at(LATE, 90, 320.0)
    assert state.flows.throttle[1] > 1.1 * state.flows.throttle[0]
    assert state.flows.main_jet[1] > state.flows.main_jet[0]


def steepest(mixtures: Sequence[float]) -> float:
    """Return the largest change from one point to the next."""
    return max(abs(after - before) for before, after in pairwise(mixtures))


def test_the_second_nozzle_takes_over_without_a_jump() -> None:
    states = [at(LATE, degrees) for degrees in range(40, 91, 2)]
    shares = [state.flows.throttle[1] / sum(state.flows.throttle) for state in states]
    assert all(later > before - 1e-3 for before, later in pairwise(shares))
    # Steepest where vacuum falls and the power rods lift; half the step, half the change.
    finely = [at(LATE, 42 + step / 16).mixture for step in range(33)]
    assert steepest(finely) < 0.6 * steepest(finely[::2]) < 0.02


# Conservation of mass: what all barrels pass with leak and fuel's air is what the engine takes.
@given(st.floats(0.18, OPEN), st.floats(80, 420))
@examples(deadline=None, max_examples=25)
def test_mass_is_conserved_with_a_late_barrel(angle: float, speed: float) -> None:
    state = network.solve(LATE, AIR, PETROL, speed, angle)
    f = state.flows
    into = state.all_barrels(f.throttle) + state.all_barrels(f.slot_below.air)
    into += state.all_barrels(f.screw.air) + f.leak
    assert into == pytest.approx(f.engine, rel=1e-5)


def test_it_idles_on_the_first_barrel() -> None:
    idle = network.curb_idle(LATE, AIR, PETROL)
    assert idle.speed == pytest.approx(700 * pi / 30, rel=1e-6)
    assert idle.throttle_angle < START
    assert idle.flows.main_jet[0] > 20 * abs(idle.flows.main_jet[1])


def test_a_link_that_never_pulls_is_refused() -> None:
    with pytest.raises(RangeError, match=r"opens at must be between 0 and 1\.4 rad"):
        replace(LINKED, opens_at=1.5)

"""Rows of states: those that come one by one, in whatever order and from wherever they start."""

from dataclasses import replace
from functools import cache
from typing import Any

import pytest
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import ConvergenceError, RangeError
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network import curves
from fuelcircuits.physics.network import solving as network
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.search import balanced
from fuelcircuits.physics.network.state import State
from fuelcircuits.physics.openings.plate import OPEN

from tests.flow_stand import on_flow_stand
from tests.places import RIGS

PLOVER, DUNLIN = (read_rig(RIGS / f"{name}.toml") for name in ("plover", "dunlin"))
BOTH = pytest.mark.parametrize("rig", [PLOVER, DUNLIN], ids=["plover", "dunlin"])
AIR, PETROL = Weather.at(temperature=293.15), Fuel()


@cache
def curve(rig: Rig) -> list[State]:
    return on_flow_stand(rig, AIR, PETROL, count=25)


def alike(ours: State | None, rig: Rig, **how: Any) -> None:
    """Hold a state to the one that a first guess leads to."""
    assert ours is not None
    theirs = network.solve(rig, AIR, PETROL, ours.speed, ours.throttle_angle, **how)
    assert ours.mixture == pytest.approx(theirs.mixture, rel=1e-7)
    assert ours.unknowns == pytest.approx(theirs.unknowns, rel=1e-9)


@BOTH
def test_mixture_curve_runs_from_idle_to_wide_open(rig: Rig) -> None:
    states, idle = curve(rig), network.curb_idle(rig, AIR, PETROL)
    assert len(states) == 25
    assert states[0].speed == rig.engine.idle_speed
    assert states[0].throttle_angle == pytest.approx(idle.throttle_angle)
    assert states[-1].throttle_angle == pytest.approx(OPEN)
    assert states[-1].speed == pytest.approx(0.85 * rig.engine.highest_speed)


@BOTH
def test_states_of_a_mixture_curve_are_those_from_a_guess(rig: Rig) -> None:
    for state in curve(rig):
        alike(state, rig)


@BOTH
def test_a_path_may_leap(rig: Rig) -> None:
    places = [(70.0, 0.25), (440.0, 1.5), (75.0, 0.24), (300.0, 0.3), (110.0, 1.2)]
    for state, at in zip(network.path(rig, AIR, PETROL, places), places, strict=True):
        assert (state.speed, state.throttle_angle) == at
        alike(state, rig)


@BOTH
@pytest.mark.parametrize(
    ("section", "entry", "factor"),
    [("high_speed", "jet_bore", 1.1), ("low_speed", "slot_width", 0.7), ("low_speed", "fall", 1.5)],
)
def test_states_of_a_changed_rig_follow_from_the_rig_as_it_was(
    rig: Rig, section: str, entry: str, factor: float
) -> None:
    part = getattr(rig, section)
    changed = replace(rig, **{section: replace(part, **{entry: factor * getattr(part, entry)})})
    found = network.along(changed, AIR, PETROL, curve(rig))
    for state, home in zip(found, curve(rig), strict=True):
        assert state is not None
        assert (state.speed, state.throttle_angle) == (home.speed, home.throttle_angle)
        alike(state, changed)


def test_a_second_barrel_may_come_to_differ_along_a_curve() -> None:
    starved = replace(PLOVER, low_speed=replace(PLOVER.low_speed, jet_bore=0.4e-3))
    for state in network.along(PLOVER, AIR, PETROL, curve(PLOVER), other=starved):
        alike(state, PLOVER, other=starved)


def test_a_place_without_a_balance_is_left_out(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(curves, "balanced", refusing(2))
    found = network.along(PLOVER, AIR, PETROL, curve(PLOVER)[:5])
    assert [state is None for state in found] == [False, False, True, False, False]


def refusing(which: int) -> Any:
    """Return a search that finds all but one state."""
    asked: list[int] = []

    def search(*arguments: Any) -> Any:
        asked.append(0)
        if len(asked) == which + 1:
            raise ConvergenceError("well pressure must balance, got none")
        return balanced(*arguments)

    return search


def test_a_flow_stand_of_one_place_is_refused() -> None:
    with pytest.raises(RangeError, match="count must be between 2 and 100000"):
        curves.stand(PLOVER, 0.2, 1)

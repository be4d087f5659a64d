"""The low-speed bench: its idle is the network's, and its screws turn as the trade says."""

from dataclasses import replace
from itertools import pairwise
from typing import Any

import pytest
from fuelcircuits.benches.frame.state import State
from fuelcircuits.benches.low_speed.bench import LowSpeedBench
from fuelcircuits.benches.low_speed.drawing import OPENING
from fuelcircuits.benches.low_speed.found import monoxide
from fuelcircuits.benches.low_speed.screw_turns import (
    KINDS,
    TURNS_SHOWN,
    at_turns,
    fitted,
    held,
    over_turns,
)
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import CardError
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.solving import curb_idle, solve
from fuelcircuits.physics.numerics.interpolation import interpolate, linspace

from tests.benches.checks import ends, off_curve, purely, shows, whole
from tests.places import RIGS
from tests.published.table import Row, rows

PLOVER, DUNLIN = (read_rig(RIGS / f"{name}.toml") for name in ("plover", "dunlin"))
BENCH, OTHER = LowSpeedBench(PLOVER), LowSpeedBench(DUNLIN)
LOW = PLOVER.low_speed


def state(bench: LowSpeedBench = BENCH, /, **changed: Any) -> State:
    return bench.compute(bench.values() | changed, "SI")


def reading(label: str, bench: LowSpeedBench = BENCH, /, **changed: Any) -> float:
    return next(float(e.value) for e in state(bench, **changed).readings if e.label == label)


@pytest.mark.parametrize("bench", [BENCH, OTHER], ids=["plover", "dunlin"])
def test_untouched_bench_is_the_cards_curb_idle(bench: LowSpeedBench) -> None:
    idle = curb_idle(bench.card, Weather.at(), Fuel())
    assert reading("Lambda", bench) == pytest.approx(idle.mixture, rel=1e-4)
    assert reading("Torque to spare", bench) == pytest.approx(0, abs=0.05)
    assert "idles well" in state(bench).verdict


# Which way the trade says each goes: common practice, no source.
@pytest.mark.parametrize(
    ("name", "sign"),
    [
        ("jet_bore", -1),
        ("bypass_bore", +1),
        ("air_bleed_bore", +1),
        ("economizer_bore", -1),
        ("screw_turns", -1),
    ],
)
def test_enlarging_a_bore_moves_the_mixture_the_way_the_trade_says(name: str, sign: int) -> None:
    start = BENCH.values()[name]
    mixture = [reading("Lambda", **{name: start * share}) for share in (0.85, 1.0, 1.15, 1.3)]
    assert all(sign * (after - before) > 0 for before, after in pairwise(mixture))


# Common practice, no source: a left-hand screw is richer when it is turned inward.
def test_air_screw_turned_inward_is_richer_and_its_clockwise_is_outward() -> None:
    mixture = [reading("Lambda", kind="air", screw_turns=turns) for turns in (1.5, 2.75, 4.0)]
    assert all(before < after for before, after in pairwise(mixture))
    assert reading("Turned clockwise", kind="air", screw_turns=3.75) == pytest.approx(1.0)
    assert reading("Turned clockwise", screw_turns=3.75) == pytest.approx(-1.0)


def test_cap_restrictor_and_plug_leave_the_screw_less_to_do() -> None:
    def reach(kind: str) -> float:
        inner, outer = (reading("Lambda", kind=kind, screw_turns=turns) for turns in (1.5, 4.0))
        return inner - outer

    assert reach("sealed") == 0
    assert 0 < reach("limited") < reach("plain")
    assert reading("Lambda", kind="restricted", screw_turns=5.0) > reading(
        "Lambda", screw_turns=5.0
    )


@pytest.mark.parametrize("wanted", [1.0, 2.9, 5.0])
def test_a_cap_holds_the_screw_between_the_cards_stops(wanted: float) -> None:
    low = fitted(DUNLIN.low_speed, "limited")
    turns = held(low, wanted)[0]
    assert turns == pytest.approx(min(max(wanted, 2.25), 4.0))


def test_a_blocked_bleed_is_rich_and_the_screw_makes_up_for_it_by_going_in() -> None:
    blocked = {"air_bleed_bore": 0.1e-3}
    assert "too rich" in state(**blocked).verdict
    assert state(**blocked).alarm
    turns = linspace(1.0, 2.4, 15)
    richness = [-reading("Lambda", **blocked, screw_turns=each) for each in turns]
    wanted = interpolate(-reading("Lambda"), richness, turns)
    assert wanted < BENCH.screw_turns - 0.3


@pytest.mark.parametrize("kind", list(KINDS))
@pytest.mark.parametrize("rig", [PLOVER, DUNLIN], ids=["plover", "dunlin"])
def test_curve_over_turns_is_the_network_solved_turn_by_turn(rig: Rig, kind: str) -> None:
    low = fitted(rig.low_speed, kind)
    along = over_turns(rig, low)
    for place in (2, 9, 16):
        alone = at_turns(rig, low, TURNS_SHOWN[place])
        assert along[place].mixture == pytest.approx(alone.mixture, rel=1e-7)


def test_state_off_the_card_is_the_networks() -> None:
    idle = curb_idle(PLOVER, Weather.at(), Fuel())
    rig = replace(PLOVER, low_speed=replace(LOW, jet_bore=0.65e-3, screw_turns=3.0))
    found = solve(rig, Weather.at(), Fuel(), idle.speed, idle.throttle_angle)
    shown = reading("Lambda", jet_bore=0.65e-3, screw_turns=3.0)
    assert shown == pytest.approx(found.mixture, rel=1e-4)


@pytest.mark.parametrize("changed", [{}, {"screw_turns": 3.1}, {"jet_bore": 0.6e-3}])
def test_dots_lie_on_their_curves(changed: dict[str, float]) -> None:
    assert off_curve(state(**changed), rel=0.02, share=0.02) == []


# The library's gas froze at 1740 K and the meter's at a constant of 3.5; 2 % lies between them.
@pytest.mark.parametrize("row", rows("1f exhaust CO dry (Cantera eq. at 1740 K)"))
def test_carbon_monoxide_is_the_librarys(row: Row) -> None:
    assert 100 * monoxide(row.number("lambda=")) == pytest.approx(row.expected, rel=0.02)


def test_a_lean_engine_shows_no_carbon_monoxide() -> None:
    assert monoxide(1.1) == 0
    assert monoxide(float("inf")) == 0


@pytest.mark.parametrize(
    ("name", "part"),
    [
        ("jet_bore", "jet"),
        ("bypass_bore", "bypass"),
        ("air_bleed_bore", "bleed"),
        ("economizer_bore", "economizer"),
    ],
)
def test_openings_are_drawn_to_one_scale(name: str, part: str) -> None:
    at = state(**{name: 0.9e-3}).numbers
    assert (at[f"{part}_high"] - at[f"{part}_low"]) / OPENING == pytest.approx(0.9e-3)


@pytest.mark.parametrize("bench", [BENCH, OTHER], ids=["plover", "dunlin"])
def test_every_end_of_every_control_gives_a_whole_state(bench: LowSpeedBench) -> None:
    for values in ends(bench):
        found = bench.compute(values, "US")
        assert whole(bench, found) == []
        assert shows(found) == []


def test_compute_is_pure() -> None:
    assert purely(BENCH, BENCH.values() | {"jet_bore": 0.6e-3, "kind": "air"})


def test_rig_without_a_low_speed_circuit_is_refused() -> None:
    with pytest.raises(CardError, match="bare: low_speed must be given"):
        LowSpeedBench(Rig(name="bare"))

"""The idle-port bench: slot and edge are drawn to scale, and its flows are the network's."""

from dataclasses import replace
from itertools import pairwise
from math import cos, radians, sin, tan
from typing import Any

import pytest
from fuelcircuits.benches.frame.state import State
from fuelcircuits.benches.off_idle.bench import OffIdleBench
from fuelcircuits.benches.off_idle.drawing import DETAIL, PLANE
from fuelcircuits.benches.off_idle.found import NARROWEST, WIDEST, tip_height
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import CardError
from fuelcircuits.physics.circuits.off_idle import slot_areas
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.solving import curb_idle
from fuelcircuits.physics.numerics.interpolation import interpolate, linspace

from tests.benches.checks import ends, off_curve, purely, shows, whole
from tests.places import RIGS

PLOVER, DUNLIN = (read_rig(RIGS / f"{name}.toml") for name in ("plover", "dunlin"))
BENCH, OTHER = OffIdleBench(PLOVER), OffIdleBench(DUNLIN)
LOW, PATH = PLOVER.low_speed, PLOVER.air_path
CARBON = {"slot_width": LOW.slot_width / 3}
ANGLES = linspace(0.24, 0.44, 6)
INCH_OF_WATER = 249.089


def state(bench: OffIdleBench = BENCH, /, **changed: Any) -> State:
    return bench.compute(bench.values() | changed, "SI")


def reading(label: str, bench: OffIdleBench = BENCH, /, **changed: Any) -> float:
    return next(float(e.value) for e in state(bench, **changed).readings if e.label == label)


@pytest.mark.parametrize("bench", [BENCH, OTHER], ids=["plover", "dunlin"])
def test_untouched_bench_is_the_cards_curb_idle(bench: OffIdleBench) -> None:
    idle = curb_idle(bench.card, Weather.at(), Fuel())
    assert reading("Lambda", bench) == pytest.approx(idle.mixture, rel=1e-4)
    assert reading("Engine speed", bench) == pytest.approx(bench.card.engine.idle_speed)


@pytest.mark.parametrize("angle", ANGLES)
def test_detail_is_to_scale(angle: float) -> None:
    at = state(throttle=angle).numbers
    areas = slot_areas(LOW, angle, PATH.throttle_bore, PATH.throttle_closed_angle)
    corner = 0.06 * LOW.plate_edge * LOW.slot_width  # rounded in the model
    below, above = at["d_foot"] - at["d_low"], at["d_high"] - at["d_top"]
    assert LOW.slot_width * below / DETAIL == pytest.approx(areas.below, abs=corner)
    assert LOW.slot_width * above / DETAIL == pytest.approx(areas.above, abs=corner)


# First principles: the plate just fills the bore at its closed angle.
@pytest.mark.parametrize("angle", ANGLES)
def test_tip_stands_where_the_triangle_has_it(angle: float) -> None:
    reach = PATH.throttle_bore / 2 / cos(PATH.throttle_closed_angle)
    assert tip_height(LOW, PATH, angle) == pytest.approx(reach * sin(angle), rel=1e-9)
    edge = state(throttle=angle).numbers["d_edge_up"]
    assert (PLANE - edge) / DETAIL == pytest.approx(reach * sin(angle) + LOW.plate_edge / 2)


def test_opening_the_throttle_moves_slot_from_above_to_below_the_edge() -> None:
    below, above, screw = (
        [reading(label, throttle=angle) for angle in ANGLES]
        for label in ("Slot below the edge", "Slot above the edge", "Fuel by the screw")
    )
    assert all(before < after for before, after in pairwise(below))
    assert all(before > after for before, after in pairwise(above))
    assert screw[-1] < screw[0]


# The valve's range of 7 to 12 inches of water: common practice, no source.
def test_bleed_valve_lifts_off_idle_and_not_at_idle() -> None:
    assert reading("Bleed valve lifted") == 0
    lifted = [a for a in ANGLES if reading("Bleed valve lifted", throttle=a) > 0.01]
    vacuum = reading("Chamber vacuum", throttle=lifted[0]) / INCH_OF_WATER
    assert 7 < vacuum < 12


def test_a_ball_stuck_ajar_is_leaner_at_idle_and_one_stuck_shut_richer_off_idle() -> None:
    assert reading("Lambda", ball="ajar") > reading("Lambda")
    off = {"throttle": 0.35}
    assert reading("Lambda", **off, ball="shut") < reading("Lambda", **off)


def test_a_choked_slot_is_rich_at_idle_and_lean_off_idle_once_the_screw_makes_up_for_it() -> None:
    assert reading("Lambda", **CARBON) < reading("Lambda")
    turns = linspace(0.5, 2.4, 20)
    richness = [-reading("Lambda", **CARBON, screw_turns=each) for each in turns]
    set_in = interpolate(-reading("Lambda"), richness, turns)
    found = state(**CARBON, screw_turns=set_in, throttle=radians(15.5))
    assert found.alarm
    assert "stumbles" in found.verdict


@pytest.mark.parametrize("changed", [{}, {"throttle": 0.35}, CARBON | {"throttle": 0.3}])
def test_dots_lie_on_their_curves(changed: dict[str, float]) -> None:
    assert off_curve(state(**changed), rel=0.02, share=0.01) == []


def test_a_shut_screw_fills_its_seat() -> None:
    at = state(screw_turns=0.5).numbers
    back = 0.5 * LOW.screw_pitch * 128 / PATH.throttle_bore
    slope = (252 - 247) / (at["shoulder"] - at["point"])
    assert slope == pytest.approx(tan(LOW.needle_angle / 2))
    assert 252 - slope * (192 + back - at["point"]) == pytest.approx(at["seat_up"])


@pytest.mark.parametrize("bench", [BENCH, OTHER], ids=["plover", "dunlin"])
def test_every_end_of_every_control_gives_a_whole_state(bench: OffIdleBench) -> None:
    for values in ends(bench):
        found = bench.compute(values, "US")
        assert whole(bench, found) == []
        assert shows(found) == []


def test_gauges_read_what_the_model_has() -> None:
    water, manifold = state().gauges
    idle = curb_idle(PLOVER, Weather.at(), Fuel())
    assert water.value == pytest.approx(idle.chamber_vacuum[0], rel=1e-3)
    assert manifold.value == pytest.approx(idle.manifold_vacuum, rel=1e-3)


def test_compute_is_pure() -> None:
    assert purely(BENCH, BENCH.values() | CARBON | {"throttle": 0.3})


def test_limiter_is_off_on_the_bench() -> None:
    capped = replace(PLOVER, low_speed=replace(LOW, fewest_turns=2.0, most_turns=3.0))
    assert OffIdleBench(capped).compute(BENCH.values() | {"screw_turns": 4.0}, "SI").readings


def test_rig_without_a_low_speed_circuit_is_refused() -> None:
    with pytest.raises(CardError, match="bare: low_speed must be given"):
        OffIdleBench(Rig(name="bare"))


def test_stop_lies_within_the_bench() -> None:
    assert NARROWEST < BENCH.throttle < WIDEST

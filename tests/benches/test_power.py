"""The power bench: what it says agrees with the model, and its drawing is to scale."""

import re
from dataclasses import replace
from itertools import pairwise, product
from math import isfinite
from typing import Any

import pytest
from fuelcircuits.benches import bench_class
from fuelcircuits.benches.carburettor.mixture_curve import held
from fuelcircuits.benches.frame.state import State
from fuelcircuits.benches.power.bench import PowerBench
from fuelcircuits.benches.power.drawing import ACROSS, JET, PLAN
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import CardError
from fuelcircuits.physics.circuits.power import rod_diameter, rod_lift
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.numerics.interpolation import linspace

from tests.benches.checks import off_curve
from tests.places import RIGS

PLOVER, DUNLIN = (read_rig(RIGS / f"{name}.toml") for name in ("plover", "dunlin"))
BENCH = PowerBench(PLOVER)
DRAWING = bench_class("power").drawing()
NAMES = set(re.findall(r"\[(\w+)\]", DRAWING)) | set(re.findall(r'data-march="(\w+)"', DRAWING))
CRUISE, HALF, FULL = {"throttle": 0.1}, {"throttle": 0.2}, {"throttle": 1.0}


def state(**changed: Any) -> State:
    return BENCH.compute(BENCH.values() | changed, "SI")


def reading(found: State, label: str) -> float:
    return next(float(line.value) for line in found.readings if line.label == label)


@pytest.mark.parametrize(
    ("changed", "alarm", "words"),
    [
        (CRUISE, False, "the vacuum holds the rod down"),
        (FULL, False, "the spring holds the rod fully up"),
        (FULL | {"rod": "down"}, True, "too lean for full load"),
        (CRUISE | {"rod": "up"}, True, "too rich for light running"),
    ],
)
def test_verdict_names_what_the_rod_does(changed: dict[str, Any], alarm: bool, words: str) -> None:
    assert state(**changed).alarm is alarm
    assert words in state(**changed).verdict


def test_opening_the_throttle_takes_vacuum_and_lifts_the_rod() -> None:
    found = [state(throttle=share) for share in linspace(0.05, 0.8, 12)]
    vacuum, raised = (
        [reading(each, name) for each in found] for name in ("Manifold vacuum", "Rod raised")
    )
    assert all(before > after for before, after in pairwise(vacuum))
    assert all(before <= after for before, after in pairwise(raised))
    assert reading(found[-1], "Rod raised") == pytest.approx(PLOVER.power.travel)


def test_spring_and_vacuum_balance_while_the_rod_floats() -> None:
    found = next(
        each
        for each in (state(throttle=share) for share in linspace(0.1, 0.4, 31))
        if 0 < reading(each, "Rod raised") < PLOVER.power.travel
    )
    push, pull = (reading(found, name) for name in ("Push of the spring", "Pull of the vacuum"))
    assert push == pytest.approx(pull, rel=1e-9)


# Which way the trade says each change moves lambda under full load: common practice, no source.
@pytest.mark.parametrize(
    ("changed", "way"),
    [({"rich_step": 0.4e-3}, -1), ({"rod": "down"}, +1), ({"lean_step": 1.0e-3}, 0)],
)
def test_mixture_at_full_load_moves_the_way_the_trade_says(
    changed: dict[str, Any], way: int
) -> None:
    before, after = (reading(state(**FULL, **each), "Mixture (lambda)") for each in ({}, changed))
    change = round(after - before, 6)
    assert (change > 0) - (change < 0) == way


def test_a_stiffer_spring_enriches_at_a_higher_vacuum() -> None:
    soft, stiff = (state(spring=force).chart.panels[1].curves[0] for force in (2.2, 2.8))
    half = 0.5 * (soft.y[0] + soft.y[-1])
    enriched = [
        next(vacuum for vacuum, ring in zip(each.x, each.y, strict=True) if ring < half)
        for each in (soft, stiff)
    ]
    assert enriched[1] > enriched[0]


@pytest.mark.parametrize("throttle", [0.1, 0.3, 1.0])
def test_dots_lie_on_their_curves(throttle: float) -> None:
    assert off_curve(state(throttle=throttle), rel=0.02) == []


def test_the_free_rod_runs_between_the_two_stuck_ones() -> None:
    lead, down, up = state().chart.panels[0].curves
    for vacuum, own, lean, rich in zip(lead.x, lead.y, down.y, up.y, strict=True):
        assert vacuum > 60e3 or rich - 1e-4 <= own <= lean + 1e-4


# At each place of its own curve the rod is solved for here, wherever it lies there.
def test_the_curve_of_the_free_rod_is_the_networks() -> None:
    power = replace(PLOVER.power, spring_force=2.8)
    rig, lead = replace(PLOVER, power=power), state(spring=2.8).chart.panels[0].curves[0]
    states = held(PLOVER, rig, BENCH.speed)
    assert lead.x == pytest.approx([each.manifold_vacuum for each in states], rel=1e-7)
    assert lead.y == pytest.approx([each.mixture for each in states], rel=1e-7)


@pytest.mark.parametrize("changed", [CRUISE, HALF, FULL])
def test_drawing_is_to_scale(changed: dict[str, Any]) -> None:
    found, power = state(**changed), PLOVER.power
    at, lift = found.numbers, rod_lift(power, reading(found, "Manifold vacuum"))
    unit = (at["cylinder_right"] - at["cylinder_left"]) / power.piston_bore
    assert (JET - at["rod_shift"]) / unit == pytest.approx(lift * power.travel)
    assert 2 * at["plan_rod"] / PLAN == pytest.approx(rod_diameter(power, lift))
    assert 2 * at["plan_jet"] / PLAN == pytest.approx(PLOVER.high_speed.jet_bore)
    assert 2 * at["ax_12"] / ACROSS == pytest.approx(power.rich_step)


@pytest.mark.parametrize("rig", [PLOVER, DUNLIN])
def test_every_corner_of_the_controls_gives_a_whole_state(rig: Rig) -> None:
    bench = PowerBench(rig)
    ends = [(control.low, control.high) for control in bench.controls().values()]
    for corner in product(*ends):
        values = bench.values() | dict(zip(bench.controls(), corner, strict=True))
        found = bench.compute(values, "US")
        assert set(found.numbers) >= NAMES
        assert all(isfinite(each) for each in found.numbers.values())
        assert all(isfinite(line.value) for line in found.readings)


def test_words_of_drawing_and_plot_carry_the_numbers() -> None:
    found = state(**CRUISE)
    assert "0.93 mm of it fills the jet of 1.56 mm" in found.drawn
    assert re.search(r"lambda \d\.\d{3} at \d+\.\d kPa", found.plotted)
    assert "inHg" in BENCH.compute(BENCH.values(), "US").plotted


def test_rig_without_a_power_circuit_is_refused() -> None:
    with pytest.raises(CardError, match="bare: power must be given"):
        PowerBench(Rig(name="bare"))

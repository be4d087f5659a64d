"""The float bench: what it says agrees with the model, and its drawing is to scale."""

import itertools
from math import copysign, radians, sin, tan

import pytest
from fuelcircuits.benches.float_bowl.bench import FloatBowlBench
from fuelcircuits.benches.float_bowl.drawing import DETAIL
from fuelcircuits.benches.frame.state import State
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import CardError
from fuelcircuits.physics.circuits.float_bowl import starvation_demand, steady
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig

from tests.benches.checks import off_curve, whole
from tests.places import RIGS

PLOVER = read_rig(RIGS / "plover.toml")
BENCH = FloatBowlBench(PLOVER)
CARD = BENCH.card
STARVING = {"fuel_pressure": 5e3, "demand": 12e-3}
FLOODING = {"fuel_pressure": 50e3, "soaked": 0.5}
SHUT = {"demand": 0.0}


def state(**changed: float) -> State:
    return BENCH.compute(BENCH.values() | changed, "SI")


@pytest.mark.parametrize(
    ("changed", "alarm", "words"),
    [
        ({}, False, "holds its level"),
        (SHUT, False, "needle is shut"),
        (STARVING, True, "starves"),
        (FLOODING, True, "floods"),
    ],
)
def test_verdict_names_what_the_bowl_does(
    changed: dict[str, float], alarm: bool, words: str
) -> None:
    assert state(**changed).alarm is alarm
    assert words in state(**changed).verdict


# Which way the trade says each change goes: common practice, no source.
@pytest.mark.parametrize(
    ("changed", "way"),
    [
        ({"fuel_pressure": 45e3}, +1),
        ({"seat_bore": 2.8e-3}, +1),
        ({"float_setting": 11e-3}, -1),
        ({"soaked": 0.2}, +1),
        ({"demand": 8e-3}, -1),
    ],
)
def test_level_moves_the_way_the_trade_says(changed: dict[str, float], way: int) -> None:
    below = [line.value for line in (state().readings[0], state(**changed).readings[0])]
    assert copysign(1, below[0] - below[1]) == way


@pytest.mark.parametrize("demand", [0.5e-3, 4e-3, 11e-3])
def test_dots_lie_on_their_curves(demand: float) -> None:
    assert off_curve(state(demand=demand), rel=5e-3) == []


@pytest.mark.parametrize("demand", [0.5e-3, 4e-3, 11e-3])
def test_the_inlet_passes_what_the_engine_draws(demand: float) -> None:
    dot = state(demand=demand).chart.panels[0].dot
    assert dot is not None
    assert dot.y == pytest.approx(demand, rel=1e-6)


def test_band_begins_where_the_curve_ends_and_where_the_model_starves() -> None:
    inlet = state(**STARVING).chart.panels[0]
    assert inlet.band is not None
    assert inlet.band.low == pytest.approx(inlet.curves[0].y[-1], rel=1e-9)
    assert inlet.band.low == pytest.approx(starvation_demand(CARD, Fuel(), 5e3))


@pytest.mark.parametrize("changed", [{}, SHUT, STARVING, {"demand": 9e-3}])
def test_drawing_is_to_scale(changed: dict[str, float]) -> None:
    at, values = state(**changed).numbers, BENCH.values() | changed
    now = steady(CARD, Fuel(), values["demand"], values["fuel_pressure"])
    unit = (at["floor"] - 92) / CARD.depth
    assert (at["floor"] - at["surface"]) / unit == pytest.approx(now.level)
    assert (at["specified"] - 92) / unit == pytest.approx(CARD.specified_level)
    assert (at["ghost_top"] - 92) / unit == pytest.approx(CARD.float_setting)
    assert at["a_lift"] / DETAIL == pytest.approx(now.needle_lift)
    assert -CARD.float_arm * sin(radians(at["swing"])) == pytest.approx(now.drop)


def test_shut_needle_touches_the_edge_of_the_seat() -> None:
    at = state(**SHUT).numbers
    slope = (at["needle_right"] - at["needle"]) / (at["shoulder"] - at["point"])
    assert slope == pytest.approx(tan(CARD.needle_taper))
    assert at["needle"] + slope * (at["seat"] - at["point"]) == pytest.approx(at["bore_right"])


@pytest.mark.parametrize("rig", ["plover", "dunlin"])
def test_every_corner_of_the_controls_gives_a_whole_state(rig: str) -> None:
    bench = FloatBowlBench(read_rig(RIGS / f"{rig}.toml"))
    ends = [(control.low, control.high) for control in bench.controls().values()]
    for corner in itertools.product(*ends):
        found = bench.compute(dict(zip(bench.controls(), corner, strict=True)), "US")
        assert whole(bench, found) == []


def test_words_of_drawing_and_plot_carry_the_numbers() -> None:
    found = state()
    assert "16.2 mm below the gasket face" in found.drawn
    assert "3.00 g/s at a drop of 0.9 mm" in found.plotted


def test_rig_without_a_float_bowl_is_refused() -> None:
    with pytest.raises(CardError, match="bare: float_bowl must be given"):
        FloatBowlBench(Rig(name="bare"))

"""The high-speed bench: what it says agrees with the model, and its drawing is to scale."""

import re
from itertools import pairwise, product
from math import isfinite, tan
from typing import Any

import pytest
from fuelcircuits.benches import bench_class
from fuelcircuits.benches.carburettor import mixture_curve
from fuelcircuits.benches.frame.state import State
from fuelcircuits.benches.high_speed.bench import HighSpeedBench
from fuelcircuits.benches.high_speed.drawing import HOLES
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import CardError
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.numerics.interpolation import interpolate

from tests.flow_stand import on_flow_stand
from tests.places import RIGS

PLOVER, DUNLIN = (read_rig(RIGS / f"{name}.toml") for name in ("plover", "dunlin"))
BENCH = HighSpeedBench(PLOVER)
DRAWING = bench_class("high_speed").drawing()
NAMES = set(re.findall(r"\[(\w+)\]", DRAWING)) | set(re.findall(r'data-march="(\w+)"', DRAWING))


def state(**changed: Any) -> State:
    return BENCH.compute(BENCH.values() | changed, "SI")


def reading(found: State, label: str) -> float:
    return next(float(line.value) for line in found.readings if line.label == label)


@pytest.mark.parametrize(
    ("changed", "alarm", "words"),
    [
        ({}, False, "The main nozzle gives"),
        ({"throttle": 0.0}, False, "The main nozzle is silent; the idle screw gives"),
        ({"throttle": 1.0}, False, "6 of 6 bleed holes"),
        ({"jet_bore": 1.4e-3}, True, "Too lean"),
        ({"jet_bore": 1.9e-3}, True, "Too rich"),
    ],
)
def test_verdict_names_what_the_circuit_does(
    changed: dict[str, Any], alarm: bool, words: str
) -> None:
    assert state(**changed).alarm is alarm
    assert words in state(**changed).verdict


# Which way the trade says each change moves lambda: common practice, no source.
@pytest.mark.parametrize(
    ("changed", "way"),
    [
        ({"jet_bore": 1.6e-3}, -1),
        ({"air_bleed": 1.4e-3}, +1),
        ({"lip": 8e-3}, +1),
        ({"altitude": 1500.0}, -1),
        ({"nozzle": "plain"}, -1),
    ],
)
def test_mixture_moves_the_way_the_trade_says(changed: dict[str, Any], way: int) -> None:
    lambdas = [reading(state(**each), "Mixture (lambda)") for each in ({}, changed)]
    assert way * (lambdas[1] - lambdas[0]) > 0


def test_the_air_bled_well_is_flatter_than_the_plain_nozzle() -> None:
    air, swing = state().chart.panels[0].curves[0].x, []
    alone = [place for place, flow in enumerate(air) if 0.012 < flow < 0.030]  # before rods lift
    for curve in state().chart.panels[0].curves:
        mixture = [curve.y[place] for place in alone]
        swing.append(max(mixture) - min(mixture))
    assert swing[0] < 0.35 * swing[1]


def test_opening_the_throttle_uncovers_one_hole_after_another() -> None:
    clear = [sum(state(throttle=share).numbers[f"air_{i}"] > 0 for i in range(HOLES))
             for share in (0.0, 0.05, 0.08, 0.12, 1.0)]  # fmt: skip
    assert clear[0] == 0
    assert clear[-1] == PLOVER.high_speed.hole_count
    assert all(before <= after for before, after in pairwise(clear))
    assert len(set(clear)) > 2


def test_the_card_gives_the_curve_of_the_network() -> None:
    found = on_flow_stand(PLOVER, Weather.at(temperature=288.15), Fuel(), count=31)
    mixture = [each.mixture for each in found]
    assert state().chart.panels[0].curves[0].y == pytest.approx(mixture, rel=1e-6)


@pytest.mark.parametrize("throttle", [0.0, 0.08, 0.3, 1.0])
def test_dot_lies_on_its_curve(throttle: float) -> None:
    panel = state(throttle=throttle).chart.panels[0]
    assert panel.dot is not None
    there = interpolate(panel.dot.x, panel.curves[0].x, panel.curves[0].y)
    assert there == pytest.approx(panel.dot.y, rel=0.02)


@pytest.mark.parametrize("throttle", [0.0, 0.08, 0.3, 1.0])
def test_shares_add_up_to_the_whole(throttle: float) -> None:
    shares = [line.value for line in state(throttle=throttle).readings if "share" in line.label]
    assert sum(shares) == pytest.approx(1.0, abs=1e-6)


def test_drawing_is_to_scale() -> None:
    at, high = state().numbers, PLOVER.high_speed
    unit = (at["well_floor"] - 132) / high.well_depth
    assert (132 - at["lip"]) / unit == pytest.approx(high.lip)
    assert (at["hole_5"] - at["hole_0"]) / unit == pytest.approx(high.last_hole - high.first_hole)
    assert (at["bore_right"] - at["bore_left"]) / unit == pytest.approx(
        PLOVER.air_path.throttle_bore
    )
    down = reading(state(), "Level in bleed tube, down")
    assert (at["tube_level"] - 132) / unit == pytest.approx(down)


@pytest.mark.parametrize("lip", [0.0, 4.2e-3, 8e-3])
@pytest.mark.parametrize("slope", ["up", "down"])
def test_a_nozzle_has_its_highest_point_at_its_lip(lip: float, slope: str) -> None:
    at = state(lip=lip, slope=slope).numbers
    floor = {at["inner_left"]: at["mouth"], 214.0: at["inner_foot"]}
    assert floor[at["lip_at"]] == min(floor.values()) == at["lip"]
    assert (at["inner_foot"] > at["mouth"]) is (slope == "up")


# First principles: petrol of 735 to 750 kg/m3, 4.2 mm high; tangents of lip over way across.
@pytest.mark.parametrize(("slope", "across"), [("up", 76e-3), ("down", 32e-3)])
def test_start_hangs_on_the_lip_alone_and_the_drip_on_its_place_too(
    slope: str, across: float
) -> None:
    found = state(lip=4.2e-3, slope=slope)
    assert reading(found, "Depression to start") == pytest.approx(743 * 9.81 * 4.2e-3, rel=0.01)
    assert tan(reading(found, "Drips when parked at")) == pytest.approx(4.2e-3 / across)


def test_the_level_of_a_car_parked_too_steeply_passes_the_lip() -> None:
    for slope in ("up", "down"):
        at = state(slope=slope).numbers
        steep = (at["tilt_left"] - at["lip"]) / (at["lip_at"] - 14)
        assert at["lip"] + steep * (at["lip_at"] - 71) == pytest.approx(132)


def test_fuel_lies_past_the_lip_of_a_nozzle_that_slopes_down_only_while_it_runs() -> None:
    films = [state(slope="down", throttle=share).numbers["film"] for share in (0.0, 0.3)]
    assert films[0] == 0 < films[1]
    assert state(slope="up", throttle=0.3).numbers["film"] == 0


def test_the_slope_leaves_the_mixture_alone() -> None:
    mixtures = [reading(state(slope=each), "Mixture (lambda)") for each in ("up", "down")]
    assert mixtures[0] == mixtures[1]


def test_the_same_values_give_the_same_state_whatever_came_before() -> None:
    first = state(jet_bore=1.6e-3)
    mixture_curve.curve.cache_clear()
    mixture_curve.point.cache_clear()
    state(altitude=3000.0)
    assert state(jet_bore=1.6e-3).numbers == first.numbers


@pytest.mark.parametrize("rig", [PLOVER, DUNLIN])
@pytest.mark.parametrize("words", [("bled", "up"), ("plain", "down")])
def test_every_corner_of_the_controls_gives_a_whole_state(rig: Rig, words: tuple[str, str]) -> None:
    bench = HighSpeedBench(rig)
    ends = [(control.low, control.high) for control in bench.controls().values()]
    for corner in product(*ends):
        values = dict(zip(bench.controls(), corner, strict=True))
        chosen = dict(zip(("nozzle", "slope"), words, strict=True))
        found = bench.compute(values | chosen, "US")
        assert set(found.numbers) >= NAMES
        assert all(isfinite(each) for each in found.numbers.values())
        assert all(isfinite(line.value) for line in found.readings)


def test_words_of_drawing_and_plot_carry_the_numbers() -> None:
    found = state()
    assert "its lip, 4.2 mm above the set level" in found.drawn
    assert re.search(r"its inner end; .* at most \d\.\d g after", state(slope="down").drawn)
    assert re.search(r"lambda \d\.\d{3} at \d+\.\d g/s", found.plotted)
    assert " in above the set level" in BENCH.compute(BENCH.values(), "US").drawn


def test_a_rig_without_an_air_bleed_starts_with_the_plain_nozzle() -> None:
    assert HighSpeedBench(DUNLIN).values()["nozzle"] == "plain"


def test_rig_without_a_high_speed_circuit_is_refused() -> None:
    with pytest.raises(CardError, match="bare: high_speed must be given"):
        HighSpeedBench(Rig(name="bare"))

"""The air-path bench: its depressions are the model's, and go the way the trade says."""

from itertools import pairwise
from typing import Any

import pytest
from fuelcircuits.benches.air_path.bench import AirPathBench
from fuelcircuits.benches.air_path.drawing import DEEP, OUTSIDE
from fuelcircuits.benches.frame.state import State
from fuelcircuits.cards import read_rig
from fuelcircuits.errors import CardError
from fuelcircuits.physics.matter.atmosphere import Weather
from fuelcircuits.physics.matter.fuel import Fuel
from fuelcircuits.physics.network.rig import Rig
from fuelcircuits.physics.network.solving import solve
from fuelcircuits.physics.numerics.interpolation import interpolate
from fuelcircuits.physics.openings.plate import OPEN

from tests.benches.checks import ends, off_curve, purely, shows, whole
from tests.places import RIGS

PLOVER, DUNLIN = (read_rig(RIGS / f"{name}.toml") for name in ("plover", "dunlin"))
BENCH, OTHER = AirPathBench(PLOVER), AirPathBench(DUNLIN)
FULL = {"throttle": OPEN, "speed": 400.0}


def state(bench: AirPathBench = BENCH, /, **changed: Any) -> State:
    return bench.compute(bench.values() | changed, "SI")


def reading(label: str, bench: AirPathBench = BENCH, /, **changed: Any) -> float:
    return next(float(e.value) for e in state(bench, **changed).readings if e.label == label)


# The network carries fuel in the air too, which displaces 1 to 3 % of it.
@pytest.mark.parametrize("point", [(220.0, 0.45), (320.0, OPEN)])
def test_depression_is_the_networks_but_for_the_fuel(point: tuple[float, float]) -> None:
    found = solve(PLOVER, Weather.at(), Fuel(), *point)
    pulled = found.pressures.choke - found.pressures.booster[0]
    shown = reading("Booster depression", speed=point[0], throttle=point[1])
    assert shown == pytest.approx(pulled, rel=0.05)


# First principles: depression goes with the square of the flow while the air hardly thins.
def test_twice_the_air_pulls_four_times_as_much() -> None:
    curve = state().chart.panels[0].curves[0]
    small = 0.2 * curve.x[-1]
    once, twice = (interpolate(flow, curve.x, curve.y) for flow in (small, 2 * small))
    assert twice / once == pytest.approx(4, rel=0.02)


# Heywood 1988, section 7.2.2: the compressibility factor is below one, so that at one flow the
# real depression is the deeper, and the more so the faster the air.
def test_incompressible_sum_falls_short_and_ever_more_so() -> None:
    real, plain = (state().chart.panels[0].curves[n].y[15:] for n in (0, 1))
    short = [1 - simple / true for simple, true in zip(plain, real, strict=True)]
    assert short[0] > 0
    assert all(before < after for before, after in pairwise(short))


@pytest.mark.parametrize(
    ("name", "values", "label", "sign"),
    [
        ("throttle", (0.3, 0.5, 0.8), "Booster depression", +1),
        ("speed", (150.0, 250.0, 400.0), "Booster depression", +1),
        ("venturi_bore", (23e-3, 26e-3, 30e-3), "Booster depression", -1),
        ("cleaner_blocked", (0.0, 0.4, 0.7), "Air flow", -1),
        ("choke_angle", (0.5, 0.9, OPEN), "Air flow", +1),
        ("altitude", (0.0, 1500.0, 3000.0), "Air flow", -1),
    ],
)
def test_each_control_goes_the_way_the_trade_says(
    name: str, values: tuple[float, ...], label: str, sign: int
) -> None:
    shown = [reading(label, **(FULL | {name: each})) for each in values]
    assert all(sign * (after - before) > 0 for before, after in pairwise(shown))


# First principles: what is above the venturi does not enter its own law at a given flow but
# through the density, so a dirty cleaner hardly moves the curve.
def test_a_dirty_cleaner_costs_air_and_hardly_moves_the_curve() -> None:
    clean, dirty = (
        state(**FULL, cleaner_blocked=each).chart.panels[0].curves[0] for each in (0.0, 0.5)
    )
    assert dirty.y[40] == pytest.approx(clean.y[40], rel=0.02)
    assert reading("Air flow", **FULL, cleaner_blocked=0.5) < reading("Air flow", **FULL)


@pytest.mark.parametrize("changed", [{}, FULL, {"altitude": 2000.0}, {"choke_angle": 0.8}])
def test_dots_lie_on_their_curves(changed: dict[str, float]) -> None:
    assert off_curve(state(**changed), rel=5e-3) == []


@pytest.mark.parametrize("bore", [23e-3, 25.5e-3, 30e-3])
def test_bores_are_drawn_to_scale(bore: float) -> None:
    at, path = state(venturi_bore=bore).numbers, PLOVER.air_path
    scale = (at["throat_right"] - at["throat_left"]) / bore
    assert scale == pytest.approx(124 / path.throttle_bore)
    assert (at["in_right"] - at["in_left"]) / scale == pytest.approx(path.booster_throat)
    assert (at["out_right"] - at["out_left"]) / scale == pytest.approx(path.booster_outside)


def test_pressure_line_is_to_scale_and_cut_off_at_the_manifold() -> None:
    at = state(**FULL).numbers
    fall = (at["p_choke"] - at["p_booster"]) / DEEP
    assert fall == pytest.approx(reading("Booster depression", **FULL))
    assert state(throttle=0.25).numbers["p_manifold"] == OUTSIDE - 190


@pytest.mark.parametrize("bench", [BENCH, OTHER], ids=["plover", "dunlin"])
def test_every_end_of_every_control_gives_a_whole_state(bench: AirPathBench) -> None:
    for values in ends(bench):
        found = bench.compute(values, "US")
        assert whole(bench, found) == []
        assert shows(found) == []


def test_verdict_says_how_far_the_simple_sum_is_off() -> None:
    assert "gives the same" in state().verdict
    assert "% less" in state(**FULL).verdict


def test_compute_is_pure() -> None:
    assert purely(BENCH, BENCH.values() | FULL)


def test_rig_without_an_air_path_is_refused() -> None:
    with pytest.raises(CardError, match="bare: air_path must be given"):
        AirPathBench(Rig(name="bare"))

"""The exhaust bench: its gases against published ones, and its words against the model."""

import itertools
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest
from fuelcircuits.benches.exhaust.bench import ExhaustBench
from fuelcircuits.benches.exhaust.drawing import FLOOR, SHARE
from fuelcircuits.benches.frame.state import Curve, State
from fuelcircuits.physics.numerics.interpolation import interpolate

from tests.benches.checks import whole

BENCH = ExhaustBench()


def state(**changed: Any) -> State:
    return BENCH.compute(BENCH.values() | changed, "SI")


def value(found: State, label: str) -> float:
    return float(next(line.value for line in found.readings if line.label == label))


def place_of(which: Callable[..., float], curve: Curve) -> float:
    """Return where along a curve its height is the most or the least."""
    return float(curve.x[curve.y.index(which(curve.y))])


@pytest.mark.parametrize(
    ("mixture", "carbon_monoxide"),
    # A thirtieth of CO by volume for each tenth of lambda below 1: common practice, no source.
    [(0.9, 0.035), (0.8, 0.072), (0.95, 0.018)],
)
def test_rich_mixtures_hold_the_carbon_monoxide_the_trade_expects(
    mixture: float, carbon_monoxide: float
) -> None:
    assert state(petrol_lambda=mixture).gauges[0].value == pytest.approx(carbon_monoxide, rel=0.15)


def test_carbon_dioxide_is_highest_where_air_and_fuel_match() -> None:
    curve = state(spread=0.0).chart.panels[0].curves[3]
    assert place_of(max, curve) == pytest.approx(1.0, abs=0.01)


def test_words_name_the_tops_of_the_curves() -> None:
    # By hand: exp(-3 (x - 0.913)^2) is most at 0.913, and x times it where 6 x (x - 0.913) = 1,
    # which is at 0.913 / 2 + sqrt(0.913^2 / 4 + 1 / 6) = 1.069.
    assert "torque is most at a lambda of 0.91 " in state().plotted
    assert "the fuel for the work is least at 1.07. " in state().plotted
    torque, fuel = state().chart.panels[1].curves[1:]
    tops = place_of(max, torque), place_of(min, fuel)
    assert tops == pytest.approx((0.91, 1.07), abs=0.006)


def test_ethanol_leans_the_same_mixture_by_mass() -> None:
    blend, petrol = state(ethanol=0.1), state()
    assert value(blend, "Air to fuel by mass") == value(petrol, "Air to fuel by mass")
    # Heywood 1988, table D.4: 14.6 for petrol, 9.0 for ethanol, by mass; a tenth by volume is
    # 0.106 by mass (densities 745 and 789 kg/m3).
    need = 0.894 * 14.6 + 0.106 * 9.0
    assert value(blend, "Lambda") == pytest.approx(0.95 * 14.6 / need, rel=5e-3)


def test_false_air_leans_what_is_shown_and_not_what_is_burnt() -> None:
    tight, leaking = state(), state(false_air=0.2)
    assert value(leaking, "Lambda") == value(tight, "Lambda")
    assert leaking.gauges[2].value > tight.gauges[2].value + 0.1
    assert leaking.gauges[0].value == pytest.approx(tight.gauges[0].value / 1.2)


def test_lambda_worked_out_is_the_true_one_without_a_leak() -> None:
    for mixture in (0.75, 0.95, 1.05, 1.25):
        found = state(petrol_lambda=mixture, spread=0.0)
        assert found.gauges[2].value == pytest.approx(mixture, rel=2e-3)


@pytest.mark.parametrize("mixture", [0.75, 0.95, 1.25])
def test_dots_lie_on_their_curves(mixture: float) -> None:
    for panel in state(petrol_lambda=mixture).chart.panels:
        line = panel.curves[1]
        assert panel.dot is not None
        assert interpolate(panel.dot.x, line.x, line.y) == pytest.approx(panel.dot.y, abs=2e-4)


def test_columns_and_bar_are_to_scale() -> None:
    found = state(petrol_lambda=0.8)
    at = found.numbers
    assert (FLOOR - at["co_top"]) / SHARE == pytest.approx(found.gauges[0].value)
    assert (at["air_end"] - 20) / 22 == pytest.approx(value(found, "Air to fuel by mass"))


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({"petrol_lambda": 0.85}, "Rich: air is lacking"),
        ({"petrol_lambda": 1.0}, "just match"),
        ({"petrol_lambda": 1.1}, "Lean: air is left over"),
        ({"petrol_lambda": 1.3, "ethanol": 0.3}, "misfires"),
    ],
)
def test_verdict_names_the_mixture(changed: dict[str, float], words: str) -> None:
    assert words in state(**changed).verdict


def test_every_corner_of_the_controls_gives_a_whole_state() -> None:
    ends = [(control.low, control.high) for control in BENCH.controls().values()]
    for corner in itertools.product(*ends):
        found = BENCH.compute(dict(zip(BENCH.controls(), corner, strict=True)), "US")
        assert whole(BENCH, found) == []


def test_point_lacks_the_gases_at_other_mixtures_alone() -> None:
    values = BENCH.values() | {"spread": 0.05}
    first, rest = BENCH.point(values, "SI"), BENCH.compute(values, "SI")
    late = [curve.label for panel in first.chart.panels for curve in panel.curves if not curve.x]
    assert late == ["CO", "O₂", "CO₂"]
    assert first.chart.panels[1] == rest.chart.panels[1]
    assert replace(first, chart=rest.chart) == rest

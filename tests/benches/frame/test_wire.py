"""What travels to the browser: plain, finite, and true to a ten-thousandth of an axis."""

import json
from dataclasses import replace
from math import nan

import pytest
from fuelcircuits.benches.frame import wire
from fuelcircuits.benches.frame.measure import FLOW, LENGTH, SECONDS
from fuelcircuits.benches.frame.state import Axis, Chart, Curve, Dot, Moment, Panel, Reading, State

TIMES = [0.0, 0.5, 1.0, 1.5, 2.0]
LEVEL = [0.01 * time for time in TIMES]
PANEL = Panel(
    y=Axis("Flow", FLOW, 0, 4e-3),
    curves=(Curve("lead", TIMES, [0, 1e-3, nan, 3e-3, 4e-3], "flow"),),
    dot=Dot(TIMES, [1e-3] * 5),
)
STATE = State(
    readings=(
        Reading("Level", [0.01 * time for time in TIMES], LENGTH),
        Reading("Bore", 2e-3, LENGTH),
    ),
    numbers={"rise": [10 * time for time in TIMES], "fixed": 3.14159},
    chart=Chart(Axis("Time", SECONDS, 0, 2), (PANEL,)),
    verdict="It fills.",
    drawn="A bowl.",
    plotted="A line.",
    times=TIMES,
    moments=(Moment(0, "Fuel comes in."), Moment(1.5, "It is full.")),
)


def test_everything_is_strict_json() -> None:
    gone = replace(STATE, numbers={"rise": [nan, 1.0], "fixed": nan})
    json.dumps(wire.answer(gone, []), allow_nan=False)


def test_a_curve_to_come_has_a_name_and_no_points() -> None:
    panel = replace(PANEL, curves=(Curve("lead", label="flow"),))
    curve = wire.chart(Chart(Axis("Time", SECONDS, 0, 2), (panel,)))["panels"][0]["curves"][0]
    assert curve == {"role": "lead", "label": "flow", "x": None, "y": None}


def test_points_are_parts_of_the_axes_and_a_gap_stays_a_gap() -> None:
    curve = wire.chart(STATE.chart)["panels"][0]["curves"][0]
    assert curve["x"] == [0, 2500, 5000, 7500, 10000]
    assert curve["y"] == [0, 2500, None, 7500, 10000]


@pytest.mark.parametrize("value", [123456.789, -0.000123456789, 0.0])
def test_significant_digits_are_kept(value: float) -> None:
    assert wire.plain(value, 7) == pytest.approx(value, rel=1e-6)


def test_moment_of_a_run_lies_between_its_times() -> None:
    then = STATE.at(0.75)
    assert [line.value for line in then.readings] == pytest.approx([0.0075, 2e-3])
    assert then.numbers == pytest.approx({"rise": 7.5, "fixed": 3.14159})
    assert then.chart.panels[0].dot == Dot(0.75, 1e-3)


@pytest.mark.parametrize(("time", "words"), [(0.2, "Fuel comes in."), (1.6, "It is full.")])
def test_words_of_a_moment_are_the_last_that_hold(time: float, words: str) -> None:
    assert STATE.at(time).verdict == f"It fills. {words}"

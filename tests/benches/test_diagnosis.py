"""The fault bench: each test leaves what diagnosis says, and nobody is told too early."""

import json
import re
from math import isnan
from typing import Any

import pytest
from fuelcircuits.benches import bench_class
from fuelcircuits.benches.diagnosis.bench import CARS, DiagnosisBench
from fuelcircuits.benches.diagnosis.drawing import BAR, WIDEST
from fuelcircuits.benches.diagnosis.found import whole
from fuelcircuits.benches.diagnosis.words import MEASURES
from fuelcircuits.benches.frame.drawing import asked
from fuelcircuits.benches.frame.state import State
from fuelcircuits.diagnosis.jobs import garage
from fuelcircuits.diagnosis.plan import APART, cheapest, left
from fuelcircuits.faults import AROUND, FAULTS

BENCH = DiagnosisBench()
DRAWING = bench_class("diagnosis").drawing()
TESTS = [name for name in BENCH.inputs() if name not in ("car", "look")]
JOB = garage(1)


def state(**changed: Any) -> State:
    return BENCH.compute(BENCH.values() | changed, "SI")


def test_every_number_of_the_drawing_is_given() -> None:
    assert asked(DRAWING) == set(state().numbers)


def test_the_drawing_names_the_suspects_in_their_order() -> None:
    names = re.findall(r'text-anchor="end"[^>]*>([^<]+)<', DRAWING)
    assert [name.replace(" ", "-") for name in names] == list(JOB.table.suspects)


def test_every_test_of_the_garage_can_be_ticked() -> None:
    assert {name.replace("_", "-") for name in TESTS} == {one.name for one in JOB.table.checks}
    assert {check.unit for check in JOB.table.checks} <= set(MEASURES)


@pytest.mark.parametrize("car", CARS)
def test_the_cheapest_proof_leaves_one_suspect(car: str) -> None:
    job = garage(int(car))
    plan = cheapest(job.table, job.readings)
    found = state(car=car, **{name.replace("-", "_"): True for name in plan.checks})
    assert "Only one suspect fits" in found.verdict
    dot = found.chart.panels[0].dot
    assert dot is not None
    assert (dot.x, dot.y) == (plan.minutes, 1)


@pytest.mark.parametrize("name", TESTS)
def test_bars_beyond_the_line_are_those_ruled_out(name: str) -> None:
    numbers = state(**{name: True}).numbers
    check = name.replace("_", "-")
    remaining = left(JOB.table, {check: JOB.readings[check]})
    out = [suspect for at, suspect in enumerate(JOB.table.suspects) if numbers[f"out{at}"]]
    assert set(out) == set(JOB.table.suspects) - set(remaining)
    for at in range(len(JOB.table.suspects)):
        assert (numbers[f"bar{at}"] > BAR * APART / WIDEST) == bool(numbers[f"out{at}"])


def test_more_tests_leave_fewer_suspects() -> None:
    made = dict.fromkeys(TESTS, True)
    curve = state(**made).chart.panels[0].curves[0]
    assert curve.y == sorted(curve.y, reverse=True)
    assert curve.x == sorted(curve.x)


@pytest.mark.parametrize("car", ["7", "8", "9"])
def test_a_car_with_a_sound_carburettor_says_so_once_it_is_looked_at(car: str) -> None:
    told = garage(int(car)).told
    assert told is not None
    assert told[0] in AROUND
    assert "not the carburettor" not in state(car=car).verdict
    said = state(car=car, look=True).verdict
    assert said.startswith(f"It is not the carburettor. {AROUND[told[0]].meaning}")


def test_the_drawing_sets_what_lies_around_the_carburettor_apart() -> None:
    below = DRAWING.partition("around the carburettor</text>")[2]
    names = re.findall(r'text-anchor="end"[^>]*>([^<]+)<', below)
    outer = [name for name in JOB.table.suspects if name in AROUND]
    assert [name.replace(" ", "-") for name in names] == outer
    assert f"around the carburettor: {outer[0].replace('-', ' ')}" in state().drawn


def test_what_was_not_tested_is_not_shown() -> None:
    assert all(isnan(line.value) for line in state().readings[1:])


def test_what_is_found_can_be_kept_as_text() -> None:
    found = whole(BENCH.values() | {"idle_vacuum": True, "look": True})
    assert json.loads(json.dumps(found))[2:4] == [list(found.tests), found.read]


def test_only_looking_tells_what_was_wrong() -> None:
    assert JOB.told is not None
    meaning = FAULTS[JOB.told[0]].meaning
    assert meaning not in state().verdict
    assert meaning in state(look=True).verdict

"""The guards find what they are for, say what to do, and leave the course's questions alone."""

from dataclasses import replace
from typing import Any

import pytest
from fuelmarks.authoring.guards import Remark, remarks
from fuelmarks.questions import ExerciseSet, draw, load

UNITS = (
    *("00-shop-arithmetic", "01-air-path", "02-float-bowl", "03-bowl-vents", "04-low-speed"),
    *("05-off-idle", "06-high-speed", "07-power", "08-pump", "09-choke", "10-exhaust"),
    *("11-setting-up", "12-diagnosis", "13-overhaul", "14-around"),
)


def changed(unit: str, name: str, **entries: Any) -> ExerciseSet:
    exercise_set = load(unit)
    exercises = tuple(replace(one, **entries) if one.id == name else one for one in exercise_set)
    return replace(exercise_set, exercises=exercises)


def found(exercise_set: ExerciseSet, draws: int = 60) -> list[Remark]:
    return list(remarks(exercise_set, [draw(exercise_set, seed) for seed in range(draws)]))


@pytest.mark.parametrize("unit", UNITS)
def test_no_guard_finds_a_fault_in_the_course(unit: str) -> None:
    assert [one for one in found(load(unit), 400) if one.fault] == []


def test_rival_is_named_with_its_cure() -> None:
    wide = changed("01-air-path", "angle-for-twice", tolerance=0.05, slips=())
    said = [one.words for one in found(wide) if one.fault]
    assert any("the slip factor-missing:angle is told that all is right" in one for one in said)
    assert any('write harmless = ["factor-missing:angle"]' in one for one in said)


def test_rival_called_harmless_is_left_alone() -> None:
    loud = changed("06-high-speed", "small-flow-ratio", harmless=())
    assert any("term-missing:large" in one.words for one in found(loud))
    assert not any("term-missing:large" in one.words for one in found(load("06-high-speed")))


def test_answer_rounded_as_promised_and_refused_is_a_fault() -> None:
    tight = changed("04-low-speed", "jet-drop", tolerance=0.0001, figures=3)
    (fault,) = (one for one in found(tight) if one.fault and one.question == "jet-drop")
    assert "it says that three figures are enough" in fault.words
    assert "give it more figures or a wider tolerance" in fault.words


def test_narrow_range_is_only_a_remark() -> None:
    narrow = changed("02-float-bowl", "needle-force", low=0.05, high=0.13)
    said = [one for one in found(narrow, 5) if "is narrow" in one.words]
    assert [one.fault for one in said] == [False]

"""Questions answered by name: a fault, or the tests worth paying for."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import pytest
from fuelcircuits.answer_sheet.sheet import record
from fuelcircuits.quantities.units import Q
from fuelmarks.authoring.checker import faults
from fuelmarks.course.cells import exercise_cells
from fuelmarks.marking.marking import Mark, mark
from fuelmarks.paper.key import key_lines
from fuelmarks.questions import Choice, ExerciseSet, Given, Selection, Values, draw

UNIT = "91-made-up"
CASES = ("soaked-float", "worn-seat", "weak-pump")

FAULT = Choice(
    id="what-is-wrong",
    ask="What is wrong in case {case}?",
    options={
        "soaked-float": "the float is heavy",
        "worn-seat": "the needle leaks",
        "weak-pump": "too little pressure",
    },
    right=lambda given: CASES[round(given["case"])],
    near={"worn-seat": (0.25, "Does the level creep up at rest?")},
    why="One fault explains every reading.",
    points=4,
    outcomes=("T-1",),
    hints=("Which readings are odd?",),
)


def enough(given: Values, chosen: frozenset[str]) -> bool:
    """Say whether the tests tell it: the level, or both gauges."""
    return "level" in chosen or {"pressure", "vacuum"} <= chosen


TESTS = Selection(
    id="tests-to-pay-for",
    ask="Which tests do you pay for?",
    options={"level": "bowl open", "pressure": "pump", "vacuum": "manifold", "look": "by eye"},
    costs={"level": 6, "pressure": 8, "vacuum": 2, "look": 2},
    cost_unit="min",
    best=lambda given: ("level",),
    enough=enough,
    why="A test is worth its cost if it could change your mind.",
    points=4,
    outcomes=("T-2",),
)
SET = ExerciseSet(
    UNIT, "Made up", (Given("case", "", "", choices=(0.0, 1.0, 2.0)),), (FAULT, TESTS)
)
SOAKED = next(seed for seed in range(99) if draw(SET, seed).givens["case"] == 0)

NAMED = [
    ("soaked-float", "right", 4.0, "Right."),
    ("  Soaked Float ", "right", 4.0, "Right."),
    ("soaked_float, soaked-float", "right", 4.0, "Right."),
    ("worn-seat", "slip:worn-seat", 1.0, "creep up at rest"),
    ("weak-pump", "wrong", 0.0, "does this not explain"),
    ("soaked-float, worn-seat", "not-a-name", 0.0, "one only"),
    ("soaked-float, worn-seat, weak-pump", "not-a-name", 0.0, "one only"),
    ("soakd-float", "not-a-name", 0.0, "did you mean soaked-float?"),
    ("<b>float</b>", "not-a-name", 0.0, "Not on the list: b-float-b."),
    ("3.5 mm", "not-a-name", 0.0, "Not on the list: 3-5-mm."),
    ("--", "not-a-name", 0.0, "Write a name from the list."),
    ("", "blank", 0.0, "Left blank"),
    (None, "blank", 0.0, "Left blank"),
    (1.0, "not-a-name", 0.0, "in quotes"),
    (Q(1, "mm"), "not-a-name", 0.0, "in quotes"),
    (["soaked-float"], "not-a-name", 0.0, "in quotes"),
]
PAID = [
    ("level", "right", 4.0, "Right."),
    ("look; level", "slip:too-dear", 3.0, "for 8 min. Less will do."),
    ("vacuum and pressure", "slip:too-dear", 2.5, "for 10 min"),
    ("level, pressure, vacuum, look", "slip:too-dear", 1.25, "for 18 min"),
    ("pressure", "wrong", 0.0, "do not settle it"),
    ("level, guess", "not-a-name", 0.0, "Not on the list: guess."),
]


def one(name: str, value: object, changes: Mapping[str, Any] | None = None) -> Mark:
    """Return the mark for a single answer."""
    made = dict(record(UNIT, name, value)) | dict(changes or {})
    return mark(SET, SOAKED, {name: made})[name]


ANSWERS = [("what-is-wrong", *row) for row in NAMED] + [("tests-to-pay-for", *row) for row in PAID]


@pytest.mark.parametrize(("name", "value", "verdict", "points", "words"), ANSWERS)
def test_names_earn_what_they_are_worth_and_tests_what_they_cost(
    name: str, value: object, verdict: str, points: float, words: str
) -> None:
    found = one(name, value)
    assert (found.verdict, found.points) == (verdict, points)
    assert words in found.comment


@pytest.mark.parametrize(
    ("name", "value"), [("what-is-wrong", "weak-pump"), ("tests-to-pay-for", "look")]
)
def test_only_study_mode_tells_the_name(name: str, value: str) -> None:
    found, right = one(name, value), {"what-is-wrong": "soaked-float"}.get(name, "level")
    assert (right in found.comment, f"Worked answer: {right}." in found.study_comment) == (
        False,
        True,
    )


@pytest.mark.parametrize("text", [None, 7, ["soaked-float"], "soaked-float, " * 10_000])
def test_a_forged_text_earns_nothing_or_what_it_says(text: object) -> None:
    assert one("what-is-wrong", "x", {"text": text}).points in (0.0, 4.0)


@pytest.mark.parametrize(("case", "verdict"), [(0.0, "right"), (2.0, "wrong")])
def test_what_settles_it_hangs_on_the_trainees_case(case: float, verdict: str) -> None:
    telling = {0.0: "level", 1.0: "level", 2.0: "look"}
    tests = replace(
        TESTS,
        best=lambda given: (telling[given["case"]],),
        enough=lambda given, chosen: telling[given["case"]] in chosen,
    )
    made = replace(SET, exercises=(tests,))
    seed = next(seed for seed in range(99) if draw(made, seed).givens["case"] == case)
    answer = dict(record(UNIT, TESTS.id, "level"))
    assert mark(made, seed, {TESTS.id: answer})[TESTS.id].verdict == verdict


def test_the_checker_passes_both() -> None:
    assert list(faults(SET, range(20))) == []


BROKEN = [
    (replace(FAULT, near={"worn-seat": (1.0, "")}), "the wrong option worn-seat earns 4"),
    (
        replace(TESTS, costs={**TESTS.costs, "vacuum": -4}),
        "pressure, vacuum is enough and costs less",
    ),
    (replace(TESTS, best=lambda given: ("look",)), "the reference earns 0, verdict wrong"),
]


@pytest.mark.parametrize(("exercise", "fault"), BROKEN)
def test_the_checker_finds_what_is_broken(exercise: Choice | Selection, fault: str) -> None:
    broken = replace(SET, exercises=(exercise,))
    assert any(fault in found for found in faults(broken, range(9)))


def test_the_cells_list_the_names_and_ask_for_one() -> None:
    ask, answer, hand_over = exercise_cells(UNIT, FAULT, draw(SET, SOAKED))
    assert "- `worn-seat`: the needle leaks" in ask.source
    assert answer.source.startswith('what_is_wrong = ""  # one name from the list')
    assert 'what_is_wrong = "soaked-float"\n### END' in answer.source
    assert 'options=[\n    "soaked-float",' in hand_over.source


def test_the_key_names_the_answer_and_what_near_ones_earn() -> None:
    line = next(key_lines(SET, draw(SET, SOAKED)))
    assert (line.answer, line.accepted) == ("soaked-float", "that name only")
    assert [(slip.value, slip.points) for slip in line.slips] == [("worn-seat", 1.0)]


def test_the_key_calls_no_answer_a_slip_that_is_right_on_this_sheet() -> None:
    near = {name: (0.5, f"No, not {name}.") for name in FAULT.options}
    every = replace(SET, exercises=(replace(FAULT, near=near), *SET.exercises[1:]))
    line = next(key_lines(every, draw(every, SOAKED)))
    assert line.answer == "soaked-float"
    assert {slip.value for slip in line.slips} == {*FAULT.options} - {"soaked-float"}

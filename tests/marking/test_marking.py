"""Marks and comments for every kind of answer, on a unit made for the purpose."""

from collections.abc import Mapping
from dataclasses import asdict, replace
from typing import Any

import pytest
from fuelcircuits.answer_sheet.sheet import record
from fuelcircuits.quantities.units import Q
from fuelmarks.marking.marking import Mark, Marks, mark
from fuelmarks.questions import Exercise, ExerciseSet, Given, Slip
from hypothesis import given
from hypothesis import strategies as st

UNIT = "91-made-up"
ATMOSPHERE = 101.325  # kPa, standard; ISO 2533


def exercise(name: str, unit: str, reference: Any, **more: Any) -> Exercise:
    """Return an exercise worth four points with a tolerance of two in a hundred."""
    told: dict[str, Any] = {
        "ask": "",
        "tolerance": 0.02,
        "why": "Three figures.",
        "points": 4,
        "outcomes": ("T-1",),
    }
    return Exercise(id=name, unit=unit, reference=reference, **(told | more))


SET = ExerciseSet(
    unit=UNIT,
    title="Made up",
    givens=(Given("bore", "", "mm", choices=(2.0,)), Given("push", "", "kPa", choices=(50.0,))),
    exercises=(
        exercise(
            "area",
            "mm^2",
            lambda given, earlier: 3.14159e-6,
            low=1,
            high=20,
            slips=(Slip("radius", lambda given, earlier: 12.566e-6, 0.5, "Halve the bore."),),
        ),
        exercise(
            "force",
            "N",
            lambda given, earlier: given["push"] * earlier["area"],
            low=0.05,
            high=1.0,
            follows=("area",),
            hints=("Pressure times area.",),
            slips=(
                Slip(
                    "twice",
                    lambda given, earlier: 2 * given["push"] * earlier["area"],
                    0.3,
                    "Once is enough.",
                ),
            ),
        ),
        exercise("level", "mm", lambda given, earlier: 1.04e-3, low=0.1, high=9, rounded_to=0.1),
        exercise("inside", "kPa", lambda given, earlier: 60e3, low=20, high=110, datum="absolute"),
        exercise(
            "supply", "psi", lambda given, earlier: 5 * 6894.757, low=1, high=9, datum="gauge"
        ),
        exercise("warm", "degC", lambda given, earlier: 313.15, low=0, high=90, tolerance=0.002),
        exercise(
            "rise", "delta_degC", lambda given, earlier: 20.0, low=1, high=90, datum="difference"
        ),
        exercise("share", "percent", lambda given, earlier: 0.25, low=1, high=100),
        exercise("draw", "kPa", lambda given, earlier: -40e3, low=-90, high=-5, datum="gauge"),
        exercise("sweep", "cm^3", lambda given, earlier: 1.25e-3, low=1, high=9000),
        exercise("wait", "s", lambda given, earlier: 100.0, low=3, high=900),
    ),
)


def marked(answers: Mapping[str, object], faults: Mapping[str, str] | None = None) -> Marks:
    """Return the marks for `answers` as a notebook would hand them over."""
    records = {name: dict(record(UNIT, name, value)) for name, value in answers.items()}
    return mark(SET, 1, records, faults)


def one(name: str, value: object) -> Mark:
    """Return the mark for a single answer."""
    return marked({name: value})[name]


RIGHT = [
    ("area", Q(3.14, "mm^2")),
    ("area", Q(0.00487, "in**2")),
    ("area", "3,14 mm²"),
    ("area", "3.14159e-6 m2"),
    ("area", Q(3.2, "mm^2")),
    ("force", Q(0.157, "N")),
    ("force", Q(0.0353, "lbf")),
    ("force", Q(3.14159, "mm^2") * Q(7.25189, "psi")),
    ("level", Q(1.0, "mm")),
    ("level", Q(1.09, "mm")),
    ("level", "0.041 in"),
    ("inside", Q(60, "kPa")),
    ("inside", "-41.3 kPa gauge"),
    ("inside", "12.2 inHg vacuum"),
    ("supply", Q(34.5, "kPa")),
    ("supply", "5 psig"),
    ("supply", "19.7 psia"),
    ("warm", Q(40, "degC")),
    ("warm", "104 °F"),
    ("warm", Q(313, "K")),
    ("rise", Q(20, "delta_degC")),
    ("rise", Q(20, "K")),
    ("rise", Q(20, "degC")),
    ("rise", "36 degF"),
    ("share", Q(25, "percent")),
    ("share", 0.25),
    ("share", "25 %"),
    ("draw", "40 kPa vacuum"),
    ("draw", "11.8 inHg vac"),
    ("draw", "61.3 kPa abs"),
    ("draw", Q(-40, "kPa")),
    ("level", "1,041 mm"),
    ("sweep", "1,250 cc"),
    ("wait", Q(102, "s")),
    ("wait", Q(98, "s")),
]
WRONG = [
    ("area", Q(12.57, "mm^2"), "slip:radius", 2.0, "Halve the bore."),
    ("force", Q(0.314, "N"), "slip:twice", 1.25, "Once is enough."),
    ("area", Q(3.14159, "cm^2"), "slip:power-of-ten", 1.0, "1 m² is a million mm²"),
    ("share", 25.0, "slip:power-of-ten", 1.0, '"12 %" is 0.12'),
    ("share", Q(25, "N"), "wrong-dimension", 0.0, "write it without a unit, or in percent."),
    ("area", Q(7.7, "mm^2"), "wrong", 0.0, "Not right"),
    ("area", Q(77, "mm^2"), "implausible", 0.0, "expect 1 to 20 mm²"),
    ("area", Q(-3.14, "mm^2"), "implausible", 0.0, "expect 1 to 20 mm²"),
    ("area", 3.14, "no-unit", 0.0, "Asked is an area: give it in mm² or in²."),
    ("area", Q(3.14, ""), "wrong-dimension", 0.0, "This is a plain number."),
    ("force", Q(0.157, "psi"), "wrong-dimension", 0.0, "This is a pressure. Asked is a force"),
    ("force", Q(0.0353, "lb"), "wrong-dimension", 0.0, "the force it makes is in lbf or N"),
    ("inside", Q(60 - ATMOSPHERE, "kPa"), "slip:datum", 2.0, "This is the gauge pressure"),
    ("supply", Q(19.7, "psi"), "slip:datum", 2.0, "This is the absolute pressure"),
    ("warm", Q(40, "delta_degC"), "wrong-dimension", 0.0, "a difference of temperatures"),
    ("area", None, "blank", 0.0, "Left blank"),
    ("area", "", "blank", 0.0, "Left blank"),
    ("area", float("nan"), "not-a-number", 0.0, "division by zero"),
    ("area", Q(float("inf"), "mm^2"), "not-a-number", 0.0, "division by zero"),
    ("area", "some", "not-a-number", 0.0, "begin with a number"),
    ("area", True, "not-a-number", 0.0, "True or False"),
    ("area", [3.14], "not-a-number", 0.0, "a list"),
    ("share", True, "not-a-number", 0.0, "True or False"),
    ("share", -0.25, "implausible", 0.0, "expect 1 to 100 %"),
    ("draw", "-40 kPa vacuum", "implausible", 0.0, "expect -90 to -5 kPa"),
    ("draw", Q(40, "kPa"), "implausible", 0.0, "Check signs"),
    ("wait", Q(3, "s"), "wrong", 0.0, "Not right"),
    ("wait", Q(900, "s"), "wrong", 0.0, "Not right"),
    ("wait", Q(901, "s"), "implausible", 0.0, "expect 3 to 900 s"),
]
FAULTS = [
    ("timeout", "loop that never ends"),
    ("NameError", "used before it got a value"),
    ("<b>Odd</b>Error", "The cell stopped with bOdd/bError."),
    ("", "Nothing was handed over"),
]


@pytest.mark.parametrize(("name", "value"), RIGHT)
def test_a_right_answer_is_right_in_any_unit_and_writing(name: str, value: object) -> None:
    found = one(name, value)
    assert (found.verdict, found.points) == ("right", 4.0)


@pytest.mark.parametrize(("name", "value", "verdict", "points", "words"), WRONG)
def test_a_wrong_answer_gets_its_own_sentence(
    name: str, value: object, verdict: str, points: float, words: str
) -> None:
    found = one(name, value)
    assert (found.verdict, found.points) == (verdict, points)
    assert words in found.comment


@pytest.mark.parametrize(("fault", "words"), FAULTS)
def test_a_missing_answer_says_what_happened(fault: str, words: str) -> None:
    found = marked({}, {"area": fault})["area"]
    assert (found.verdict, found.points, words in found.comment) == ("missing", 0.0, True)


def test_what_is_missing_for_no_known_reason_says_so() -> None:
    assert marked({})["area"].comment.startswith("Nothing was handed over: the cell is missing")


def test_a_step_worked_from_a_wrong_earlier_value_earns_full_points() -> None:
    marks = marked({"area": Q(7, "mm^2"), "force": Q(0.35, "N")})
    assert [marks["area"].points, marks["force"].points] == [0.0, 4.0]
    assert marks["force"].verdict == "follow-through"
    assert "your own value of area" in marks["force"].comment


def test_a_right_value_is_right_whatever_came_before() -> None:
    assert marked({"area": Q(7, "mm^2"), "force": Q(0.157, "N")})["force"].verdict == "right"


def test_every_wrong_value_that_was_carried_on_is_named() -> None:
    first, second = SET.exercises[0], replace(SET.exercises[0], id="other", slips=())
    total = replace(
        SET.exercises[0],
        id="total",
        reference=lambda given, earlier: earlier["area"] + earlier["other"],
        follows=("area", "other"),
        slips=(),
    )
    answers = {"area": Q(7, "mm^2"), "other": Q(9, "mm^2"), "total": Q(16, "mm^2")}
    records = {name: dict(record(UNIT, name, value)) for name, value in answers.items()}
    found = mark(replace(SET, exercises=(first, second, total)), 1, records)["total"]
    assert found.verdict == "follow-through"
    assert "your own value of area and other: full points" in found.comment


@pytest.mark.parametrize(
    ("value", "verdict"),
    [
        ("57 kPa vacuum", "right"),
        ("38 kPa abs", "right"),
        ("-57 kPa gauge", "right"),
        (Q(38, "kPa"), "slip:datum"),
        ("44.3 kPa abs", "wrong"),
    ],
)
def test_the_air_of_the_day_lies_between_gauge_and_absolute(value: object, verdict: str) -> None:
    day = Given("ambient_pressure", "", "kPa", choices=(95.0,))
    draw = exercise("draw", "kPa", lambda given, earlier: -57e3, low=-90, high=90, datum="gauge")
    made = replace(SET, givens=(day,), exercises=(draw,))
    found = mark(made, 1, {"draw": dict(record(UNIT, "draw", value))})["draw"]
    assert found.verdict == verdict


@pytest.mark.parametrize("power", [-6, -3, -2, -1, 1, 2, 3, 6])
def test_a_power_of_ten_that_went_astray_is_known(power: int) -> None:
    assert one("wait", Q(100.0 * 10.0**power, "s")).verdict == "slip:power-of-ten"


def test_a_slip_worked_from_a_wrong_earlier_value_is_still_known() -> None:
    marks = marked({"area": Q(7, "mm^2"), "force": Q(0.7, "N")})
    assert marks["force"].verdict == "slip:twice"


def test_a_step_worked_from_a_rounded_right_value_is_right() -> None:
    marks = marked({"area": Q(3.2, "mm^2"), "force": Q(0.1626, "N")})
    assert [one.verdict for one in marks.marks[:2]] == ["right", "right"]


@pytest.mark.parametrize("first", [Q(0, "mm^2"), Q(7, "mm"), None, float("nan")])
def test_nothing_follows_from_an_earlier_value_that_is_none(first: object) -> None:
    marks = marked({"area": first, "force": Q(0, "N")})
    assert marks.points == 0


def test_a_comma_that_can_be_read_two_ways_counts_for_the_trainee() -> None:
    assert [one("force", text).verdict for text in ("0,157 N", "1,234 N")] == [
        "right",
        "implausible",
    ]


@pytest.mark.parametrize(("name", "value", "verdict", "points", "words"), WRONG)
def test_class_comments_never_hold_the_answer(
    name: str, value: object, verdict: str, points: float, words: str
) -> None:
    found = one(name, value)
    assert "Worked answer" not in found.comment
    assert "Worked answer" in found.study_comment


def test_marking_the_same_twice_gives_the_same() -> None:
    answers = dict(RIGHT)
    assert asdict(marked(answers)) == asdict(marked(answers))


def test_totals_are_exact() -> None:
    marks = marked({"force": Q(0.314, "N"), "area": Q(3.14, "mm^2"), "share": 0.25})
    assert (marks.unit, marks.points, marks.out_of) == (UNIT, 9.25, 4 * len(SET.exercises))


def test_only_a_mass_given_for_a_force_is_told_of_pounds() -> None:
    asked = "Asked is a force: give it in N or lbf."
    assert one("force", Q(0.157, "psi")).comment == f"This is a pressure. {asked}"


def test_study_comments_hint_at_what_is_wrong_and_then_tell() -> None:
    promised = "Three figures are enough, with one more on the way."
    worked = f"Worked answer: 0.157 N. {promised} Three figures."
    assert one("force", Q(0.157, "N")).study_comment == f"Right. {worked}"
    slip = f"Once is enough. Pressure times area. {worked}"
    assert one("force", Q(0.314, "N")).study_comment == slip


@given(st.floats(), st.sampled_from(["mm^2", "N", "kPa", "degC", ""]))
def test_no_number_earns_more_than_there_is_or_less_than_nothing(value: float, unit: str) -> None:
    marks = marked({exercise.id: Q(value, unit) for exercise in SET})
    assert all(0 <= found.points <= found.out_of for found in marks.marks)
    assert (4 * marks.points).is_integer()


@pytest.mark.parametrize("area", [-7.0, 1e308])
def test_a_reference_that_fails_on_a_trainees_value_is_no_follow_through(area: float) -> None:
    force = replace(SET.exercises[1], reference=lambda given, earlier: earlier["area"] ** -1.5)
    changed = replace(SET, exercises=(SET.exercises[0], replace(force, high=1e9, slips=())))
    answers = {"area": Q(area, "mm^2"), "force": Q(1.0, "N")}
    records = {name: dict(record(UNIT, name, value)) for name, value in answers.items()}
    assert mark(changed, 1, records)["force"].verdict == "wrong"

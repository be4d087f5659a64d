"""Records from a trainee's process: nothing in them is believed."""

import json
from decimal import Decimal
from fractions import Fraction
from typing import Any

import numpy as np
import pytest
from fuelcircuits.answer_sheet.sheet import record
from fuelcircuits.quantities.number_text import LONGEST
from fuelcircuits.quantities.units import Q
from fuelmarks.marking.answers import Answer, answer_from
from hypothesis import given
from hypothesis import strategies as st

UNIT, EXERCISE = "02-float-bowl", "needle-force"
GOOD = record(UNIT, EXERCISE, Q(1.5, "N"))

VALUES = [
    (Q(1.5, "N"), 1.5),
    (Q(1500, "mN"), 1.5),
    (Q(Fraction(3, 2), "N"), 1.5),
    (Q(Decimal("1.5"), "N"), 1.5),
    (Q(np.float64(1.5), "N"), 1.5),
    (Q(np.array([1.5]), "N"), 1.5),
    (Q(np.array(1.5), "N"), 1.5),
    (Q(1.5, "psi") ** 0.5 * Q(1, "psi") ** 0.5, 1.5 * 6894.757 / 1.5**0.5),
    ("1,5 N", 1.5),
    (1.5, 1.5),
    (np.int32(2), 2.0),
]
REFUSED = [
    (True, "True or False"),
    (np.bool_(True), "True or False"),
    (Q(float("nan"), "N"), "not a number"),
    (float("inf"), "infinite"),
    (1j, "complex"),
    (np.complex128(1), "complex"),
    (np.array([1.0, 2.0]), "array of 2"),
    (Q(np.array([]), "N"), "array of 0"),
    ([1.5], "list"),
    ((1, 5), "comma"),
    (len, "function"),
    (Q(1, "N").units, "unit without a number"),
    ("about 3 N", "begin with a number"),
    ("3 blorb", "blorb"),
    (10**400, "OverflowError"),
]
TOO_LONG = f"a text of at most {LONGEST} characters"
FORGED: list[tuple[dict[str, Any], str]] = [
    ({"magnitude": True}, "True or False"),
    ({"magnitude": "1.5"}, "str"),
    ({"magnitude": [1.5]}, "a list"),
    ({"magnitude": float("nan")}, "not a number"),
    ({"magnitude": float("inf")}, "infinite"),
    ({"magnitude": 10**400}, "infinite"),
    ({"units": None}, TOO_LONG),
    ({"units": "N" * 10_000}, TOO_LONG),
    ({"units": "m**9**9**9**9"}, "unit must"),
    ({"kind": "text", "text": None}, TOO_LONG),
    ({"kind": "text", "text": "1" * 10_000}, TOO_LONG),
    ({"kind": ["quantity"]}, ""),
    ({"kind": "other", "detail": {"nan": 1}}, ""),
    ({"kind": "other", "detail": "<script>alert(1)</script>"}, "script"),
]


@pytest.mark.parametrize(("value", "magnitude"), VALUES)
def test_a_value_arrives_as_it_left(value: object, magnitude: float) -> None:
    answer = answer_from(record(UNIT, EXERCISE, value), UNIT, EXERCISE)
    assert [one.magnitude for one in answer.readings] == [pytest.approx(magnitude)]


@pytest.mark.parametrize(("value", "reason"), REFUSED)
def test_what_is_no_number_says_why(value: object, reason: str) -> None:
    answer = answer_from(record(UNIT, EXERCISE, value), UNIT, EXERCISE)
    assert (answer.state, reason in answer.reason) == ("not-a-number", True)


@pytest.mark.parametrize("value", [None, ..., "", "  \n"])
def test_nothing_is_blank(value: object) -> None:
    assert answer_from(record(UNIT, EXERCISE, value), UNIT, EXERCISE) == Answer("blank")


@pytest.mark.parametrize(("change", "reason"), FORGED)
def test_a_forged_record_is_no_number(change: dict[str, Any], reason: str) -> None:
    answer = answer_from({**GOOD, **change}, UNIT, EXERCISE)
    assert (answer.state, answer.readings) == ("not-a-number", ())
    assert reason in answer.reason
    assert "<" not in answer.reason


def test_a_text_is_read_up_to_the_longest_and_no_further() -> None:
    text = "1.5 N".ljust(LONGEST)
    for written, state in ((text, "read"), (text + " ", "not-a-number")):
        made = {**GOOD, "kind": "text", "text": written}
        assert answer_from(made, UNIT, EXERCISE).state == state


@pytest.mark.parametrize(("text", "rough"), [("1.5 N", 0.05 / 1.5), ("1.50 N", 0.005 / 1.5)])
def test_a_text_keeps_how_roughly_it_was_written(text: str, rough: float) -> None:
    assert answer_from(record(UNIT, EXERCISE, text), UNIT, EXERCISE).rough == pytest.approx(rough)


def test_a_number_has_no_unit_whatever_its_record_says() -> None:
    (reading,) = answer_from({**GOOD, "kind": "number"}, UNIT, EXERCISE).readings
    assert (reading.bare, reading.magnitude) == (True, 1.5)


NO_RECORD = "What was handed over is not an answer record."
ANOTHERS = "What was handed over belongs to another question."


@pytest.mark.parametrize(
    ("made", "reason"),
    [
        (None, ""),
        (3, NO_RECORD),
        ([], NO_RECORD),
        ("text", NO_RECORD),
        ({}, NO_RECORD),
        ({**GOOD, "v": 2}, NO_RECORD),
        ({**GOOD, "exercise": "other"}, ANOTHERS),
        ({**GOOD, "unit": "other"}, ANOTHERS),
    ],
)
def test_what_is_not_this_answers_record_counts_as_missing(made: object, reason: str) -> None:
    assert answer_from(made, UNIT, EXERCISE) == Answer("missing", reason=reason)


JSON = st.recursive(
    st.none() | st.booleans() | st.floats() | st.integers() | st.text(),
    lambda inner: st.lists(inner) | st.dictionaries(st.text(), inner),
    max_leaves=8,
)


@given(st.fixed_dictionaries({}, optional=dict.fromkeys(GOOD, JSON)))
def test_any_record_gives_an_answer(change: dict[str, Any]) -> None:
    for made in (change, {**GOOD, **change}):
        assert answer_from(made, UNIT, EXERCISE).state in (
            "read",
            "blank",
            "not-a-number",
            "missing",
        )


@given(JSON)
def test_any_value_gives_a_record_of_plain_json(value: object) -> None:
    made = record(UNIT, EXERCISE, value)
    assert json.loads(json.dumps(made, allow_nan=False)) == made

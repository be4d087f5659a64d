"""The figures of a class, against numpy and against a class small enough to reckon by hand."""

import numpy as np
import pytest
from fuelmarks.book.class_figures import (
    bins,
    correlation,
    family_counts,
    mastery,
    question_figures,
    slip_counts,
)
from fuelmarks.book.record import ClassRecord, Entry, Question, Row
from fuelmarks.book.slip_table import slip_table
from fuelmarks.course.course import Trainee
from hypothesis import given
from hypothesis import strategies as st

from tests.small_unit import EXERCISES, UNIT

AREA = Question(1, "seat-area", 2, ("A1",))
FORCE = Question(2, "needle-force", 4, ("A1", "A2"))
ESSAY = Question(3, "say-it", 4, by_hand=True)
POINTS = st.floats(0, 10).map(lambda points: round(points * 4) / 4)


def entry(name: str, area: float, force: float, verdict: str = "right") -> Entry:
    rows = (Row(AREA, area, verdict), Row(FORCE, force, "right"), Row(ESSAY, None, "to be marked"))
    return Entry(Trainee(name), rows)


def record(*entries: Entry) -> ClassRecord:
    return ClassRecord(UNIT, "A small unit", EXERCISES, (AREA, FORCE, ESSAY), entries)


CLASS = record(
    entry("a", 2, 4),
    entry("b", 2, 2),
    entry("c", 0.5, 4, "slip:radius"),
    entry("d", 0.5, 0, "slip:radius"),
    entry("e", 0, 0),
    Entry(Trainee("f"), reason="nothing handed in"),
)


def test_difficulty_is_the_mean_share_of_the_points() -> None:
    area, force, essay = question_figures(CLASS)
    assert (area.share, force.share, essay.share) == (0.5, 0.5, None)


def test_full_and_no_points_are_counted() -> None:
    area, force, _ = question_figures(CLASS)
    assert [(one.full, one.none) for one in (area, force)] == [(2, 1), (2, 2)]


def test_discrimination_is_the_correlation_with_the_other_questions() -> None:
    area = question_figures(CLASS)[0]
    expected = np.corrcoef([2, 2, 0.5, 0.5, 0], [4, 2, 4, 0, 0])[0, 1]
    assert area.discrimination == pytest.approx(expected, abs=1e-12)


@given(st.lists(st.tuples(POINTS, POINTS), min_size=5, max_size=30))
def test_correlation_is_numpys(pairs: list[tuple[float, float]]) -> None:
    one, other = zip(*pairs, strict=True)
    found = correlation(one, other)
    if len(set(one)) > 1 and len(set(other)) > 1:
        assert found == pytest.approx(np.corrcoef(one, other)[0, 1], abs=1e-9)
    else:
        assert found is None


def test_too_few_trainees_show_no_correlation() -> None:
    assert correlation([1, 2, 3, 4], [1, 2, 3, 4]) is None


def test_mastery_is_the_share_over_all_questions_of_an_outcome() -> None:
    assert mastery(CLASS.entries[1], "A1") == pytest.approx(4 / 6)
    assert mastery(CLASS.entries[1], "A2") == pytest.approx(0.5)


def test_mastery_without_evidence_is_not_zero() -> None:
    assert mastery(CLASS.entries[5], "A1") is None


def test_slips_are_counted_with_what_they_say() -> None:
    (one,) = slip_counts(CLASS)
    assert (one.question, one.slip, one.count) == (AREA, "radius", 2)
    assert one.comment == "The bore is a diameter; halve it first."


def test_every_trainee_is_in_one_tenth_by_what_is_marked() -> None:
    assert bins(CLASS) == [2, 0, 0, 0, 0, 0, 1, 1, 0, 1]


def test_all_points_are_in_the_last_tenth() -> None:
    full = Entry(Trainee("a"), (Row(AREA, 2, "right"), Row(FORCE, 4, "right"), Row(ESSAY, 4, "")))
    assert bins(record(full))[-1] == 1


def test_a_late_penalty_never_makes_points_negative() -> None:
    assert Entry(Trainee("a"), (Row(AREA, 1, "right"),), penalty=3).points == 0


HINTED = record(
    entry("a", 0, 0, "hint:term-missing"),
    entry("b", 0, 0, "hint:sign-turned/term-missing"),
    entry("c", 0.5, 4, "slip:radius"),
    entry("d", 0, 0, "blank"),
)


def test_families_are_counted_and_an_answer_that_fits_two_in_both() -> None:
    found = [(one.family, one.count, one.questions) for one in family_counts(HINTED)]
    assert found == [("term-missing", 2, (AREA,)), ("sign-turned", 1, (AREA,))]


def test_table_of_the_term_says_whose_words_how_often_and_among_how_many() -> None:
    assert slip_table([HINTED])[1:] == [
        [UNIT, "seat-area", "author", "radius", "1", "3"],
        [UNIT, "seat-area", "family", "sign-turned", "1", "3"],
        [UNIT, "seat-area", "family", "term-missing", "2", "3"],
    ]

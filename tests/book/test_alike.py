"""Answers copied from a neighbour are seen by numbers that both cannot have worked out."""

import pytest
from fuelmarks.book.alike import alike
from fuelmarks.book.record import ClassRecord, Entry, Question, Row
from fuelmarks.course.class_list import Trainee
from fuelmarks.questions import ExerciseSet

QUESTIONS = tuple(Question(number, f"question-{number}", 2) for number in (1, 2, 3))


def entry(name: str, *answers: tuple[str, float | None]) -> Entry:
    rows = tuple(
        Row(question, 0.0, "wrong", handed_over=said, expected=right)
        for question, (said, right) in zip(QUESTIONS, answers, strict=False)
    )
    return Entry(Trainee(name), rows)


def pairs(*entries: Entry) -> list[tuple[str, str, int]]:
    record = ClassRecord("90-small-unit", "", ExerciseSet("", "", (), ()), QUESTIONS, entries)
    return [(one.one.id, one.other.id, len(one.questions)) for one in alike(record)]


MINE = (("3.14 mm²", 3.1), ("12.7 N", 12.7), ("0.0456 g/s", 0.0456e-3))


@pytest.mark.parametrize(
    ("theirs", "found"),
    [
        ((("3.14 mm²", 4.2), ("12.7 N", 10.0), ("0.0456 g/s", 0.06e-3)), 3),
        ((("3.14 mm²", 4.2), ("12.7 N", 10.0), ("0.05 g/s", 0.06e-3)), 2),
        # Typed as text, one with a comma.
        ((("“3,14mm²”", 4.2), ("12.7 N", 10.0)), 2),
        # One alone may be chance.
        ((("3.14 mm²", 4.2), ("11 N", 10.0)), 0),
        # The same numbers asked for: both may well be right.
        ((("3.14 mm²", 3.12), ("12.7 N", 12.8)), 0),
        # Without a value, or marked by name.
        ((("", 4.2), ("12.7 N", None), ("0.0456 g/s", 0.06e-3)), 0),
    ],
)
def test_a_pair_is_named_by_what_both_cannot_have_worked_out(
    theirs: tuple[tuple[str, float | None], ...], found: int
) -> None:
    expected = [("a", "b", found)] if found else []
    assert pairs(entry("a", *MINE), entry("b", *theirs)) == expected


def test_round_numbers_are_nobodys() -> None:
    one = entry("a", ("20 mm²", 3.1), ("1.5 N", 12.7), ("100 g/s", 0.0456e-3))
    other = entry("b", ("20 mm²", 4.2), ("1.5 N", 10.0), ("100 g/s", 0.06e-3))
    assert pairs(one, other) == []


def test_those_with_most_in_common_come_first() -> None:
    two = entry("b", ("3.14 mm²", 4.2), ("12.7 N", 10.0), ("1 g/s", 0.06e-3))
    three = entry("c", ("3.14 mm²", 5.2), ("12.7 N", 9.0), ("0.0456 g/s", 0.07e-3))
    assert [count for _, _, count in pairs(entry("a", *MINE), two, three)] == [3, 2, 2]

"""Observed work: checked, written once, put right by a new line, and never by half."""

from dataclasses import replace
from datetime import datetime
from pathlib import Path

import pytest
from fuelmarks.classroom.observed import (
    FILE,
    HEAD,
    Seen,
    enter,
    read_observed,
    standing,
)
from fuelmarks.classroom.observed_form import ObservedForm
from fuelmarks.classroom.observed_table import work_on_list
from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.outcomes import read_outcomes

from tests.small_unit import new_course

NOW = datetime(2026, 11, 27, 15, 30).astimezone()
GOOD = Seen("t001", "JOB-1", "2026-11-26", "CO 2.8 %, 700 rpm", "pass", "R. Ventura", "cold shop")
OUTCOMES = """
[A1]
title = "Finds an area"
standard = "3.2 of ours"

[JOB-1]
title = "Sets a carburettor on the car"
kind = "doing"
jobs = ["90-small-unit"]
"""


@pytest.fixture
def course(tmp_path: Path) -> Course:
    made = new_course(tmp_path)
    (tmp_path / "outcomes.toml").write_text(OUTCOMES)
    return made


def test_what_is_entered_is_read_back_word_for_word(course: Course) -> None:
    hard = replace(GOOD, reading='=2+2; "so", it said, <b>-3 °C</b>', note="1,5 turns; then 2")
    taken = enter(course, [GOOD, hard], NOW)
    assert [one.seen for one in read_observed(course)] == [GOOD, hard]
    assert [(one.number, one.entered) for one in taken.new] == [
        (1, "2026-11-27 15:30"),
        (2, "2026-11-27 15:30"),
    ]


def test_lines_are_only_ever_added(course: Course) -> None:
    before = b""
    for day in ("2026-11-20", "2026-11-21", "2026-11-22"):
        enter(course, [replace(GOOD, day=day)], NOW)
        after = (course.root / FILE).read_bytes()
        assert after.startswith(before)
        before = after


def test_the_same_work_is_written_once(course: Course) -> None:
    taken = enter(course, [GOOD, GOOD], NOW)
    again = enter(course, [GOOD, replace(GOOD, trainee="t002")], NOW)
    assert (len(taken.new), taken.known, len(again.new), again.known) == (1, 1, 1, 1)


def test_a_correction_is_a_new_line_and_both_stay(course: Course) -> None:
    enter(course, [GOOD], NOW)
    right = replace(GOOD, result="not yet", corrects=1)
    enter(course, [right], NOW)
    assert [one.seen for one in read_observed(course)] == [GOOD, right]
    assert [one.seen for one in standing(read_observed(course))] == [right]
    enter(course, [replace(right, result="withdrawn", corrects=2, note="another car")], NOW)
    assert standing(read_observed(course)) == []
    assert enter(course, [GOOD, right], NOW).new == ()


def test_two_new_lines_cannot_both_correct_the_same_one(course: Course) -> None:
    enter(course, [GOOD], NOW)
    two = [replace(GOOD, result=result, corrects=1) for result in ("not yet", "withdrawn")]
    with pytest.raises(CourseError, match=r"line 3: corrects must be .* not corrected yet, got 1"):
        enter(course, two, NOW, ["line 2", "line 3"])
    assert len(read_observed(course)) == 1


@pytest.mark.parametrize("ending", ["", "\r\n\r\n"])
def test_a_file_that_an_editor_ended_otherwise_is_written_on(course: Course, ending: str) -> None:
    enter(course, [GOOD], NOW)
    path = course.root / FILE
    path.write_bytes(path.read_bytes().rstrip() + ending.encode())
    other = replace(GOOD, trainee="t002")
    assert enter(course, [other], NOW).new[0].number == 2
    assert [one.seen for one in read_observed(course)] == [GOOD, other]


@pytest.mark.parametrize(
    ("wrong", "message"),
    [
        ({"trainee": "t099"}, "trainee must be in class.csv, got 't099'"),
        ({"outcome": "A1"}, "outcome must be one that is watched, JOB-1, got 'A1'"),
        ({"outcome": "JOB-9"}, "watched, JOB-1, got 'JOB-9'"),
        ({"result": "passed"}, "result must be one of pass, not yet, withdrawn, got 'passed'"),
        ({"day": "26.11.2026"}, "day must be like 2026-12-04, got '26.11.2026'"),
        ({"day": "2026-11-28"}, "to today, 2026-11-27, got '2026-11-28'"),
        ({"day": "1926-11-26"}, "day must be from 2000-01-01"),
        ({"reading": ""}, "reading must say what was read or seen, got none"),
        ({"watched_by": ""}, "watched by must be the name of whoever watched, got none"),
        ({"note": "a\nb"}, "note must be one line of plain text, got U+000A"),
        ({"reading": "a\u202eb"}, "reading must be one line of plain text, got U+202E"),
        ({"note": "x" * 301}, "note must have 300 characters or fewer, got 301"),
        ({"corrects": 7}, "corrects must be the number of a line that is not corrected yet, got 7"),
        ({"result": "withdrawn"}, "withdrawn must say which line it corrects, got none"),
    ],
)
def test_what_breaks_a_rule_is_refused_and_nothing_is_written(
    course: Course, wrong: dict[str, object], message: str
) -> None:
    with pytest.raises(CourseError, match="nothing was written down, since") as caught:
        enter(course, [GOOD, replace(GOOD, **wrong)], NOW, ["line 2", "line 3"])  # type: ignore[arg-type]
    assert "line 3: " in str(caught.value)
    assert message in str(caught.value)
    assert not (course.root / FILE).exists()


@pytest.mark.parametrize(
    ("damage", "message"),
    [
        (lambda text: text.replace("1,", "2,", 1), "number must count on from the line before"),
        (lambda text: text.replace(",pass,", ",good,"), "line 2: result must be one of pass"),
        (
            lambda text: text[: text.rindex(",") - 1].rsplit(",", 1)[0],
            "must have 10 columns, got 8",
        ),
        (lambda text: text.replace("number", "no"), "headings must be number, entered"),
    ],
)
def test_a_file_that_was_changed_is_refused_and_left_alone(
    course: Course, damage: object, message: str
) -> None:
    enter(course, [GOOD], NOW)
    path = course.root / FILE
    path.write_text(damage(path.read_text()))  # type: ignore[operator]
    before = path.read_bytes()
    with pytest.raises(CourseError, match=r"observed\.csv") as caught:
        enter(course, [replace(GOOD, trainee="t002")], NOW)
    assert message in str(caught.value)
    assert path.read_bytes() == before


def test_a_table_is_read_by_its_headings(tmp_path: Path) -> None:
    path = tmp_path / "watched.csv"
    path.write_text(
        "Who watched;Date;Student ID;Code;Result;Reading\n"
        "R. Ventura;2026-11-26;t001;JOB-1;Pass;CO 2,8 %\n",
        encoding="cp1252",
    )
    seen = Seen("t001", "JOB-1", "2026-11-26", "CO 2,8 %", "pass", "R. Ventura")
    assert work_on_list(path) == ((2, seen),)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "line 1: the headings must be trainee, outcome, observed on"),
        ("trainee,outcome\n", "line 1: there must be a column observed on"),
        (f"{','.join(HEAD)},date\n", "one column must hold observed on"),
        (
            f"{','.join(HEAD)}\n1,,t001,JOB-1,2026-11-26,x,pass,R,,first\n",
            "line 2: corrects must be",
        ),
        (
            f"{','.join(HEAD)}\n{'x,' * 11}\n",
            "line 2: a row must have no more than the 10 columns of",
        ),
    ],
)
def test_a_table_that_cannot_be_read_is_refused(tmp_path: Path, text: str, message: str) -> None:
    path = tmp_path / "watched.csv"
    path.write_text(text)
    with pytest.raises(CourseError, match=r"watched\.csv") as caught:
        work_on_list(path)
    assert message in str(caught.value)


def test_the_form_writes_down_what_its_fields_say(course: Course) -> None:
    form = ObservedForm(course)
    form.reading.value, form.watched_by.value = "CO 2.8 %", "R. Ventura <b>"
    form.button.click()
    (line,) = read_observed(course)
    assert (line.seen.reading, line.seen.trainee, line.seen.result) == ("CO 2.8 %", "t001", "pass")
    assert "Written down as line 1." in form.said.value
    assert "R. Ventura &lt;b&gt;" in form.latest.value
    assert (form.reading.value, form.watched_by.value) == ("", "R. Ventura <b>")


def test_the_form_keeps_what_it_refuses(course: Course) -> None:
    form = ObservedForm(course)
    form.reading.value = "CO 2.8 %"
    form.button.click()
    assert "<b>Not written down:</b> watched by must be the name" in form.said.value
    assert form.reading.value == "CO 2.8 %"
    assert read_observed(course) == ()


def test_outcomes_carry_their_kind_and_a_colleges_own_standard(course: Course) -> None:
    found = read_outcomes(course)
    assert (found["A1"].kind, found["A1"].standard) == ("knowing", "3.2 of ours")
    assert found["JOB-1"].watched
    assert found["JOB-1"].jobs == ("90-small-unit",)


@pytest.mark.parametrize(
    ("entry", "message"),
    [
        ('kind = "seeing"', "X: kind must be one of knowing, doing, got 'seeing'"),
        ("jobs = [1]", "X: jobs must be a list of units, got [1]"),
        ('colour = "red"', "X must have entries title"),
    ],
)
def test_an_outcome_that_cannot_be_used_is_refused(
    course: Course, entry: str, message: str
) -> None:
    (course.root / "outcomes.toml").write_text(f"[X]\n{entry}\n")
    with pytest.raises(CourseError, match=r"outcomes\.toml") as caught:
        read_outcomes(course)
    assert message in str(caught.value)

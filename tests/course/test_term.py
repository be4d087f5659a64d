"""The term's key is made once and never again by mistake; due dates and the rule are checked."""

import tomllib
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.personal import sheet_of
from fuelmarks.course.term import Lateness, read_term, term_key

from tests.small_unit import EXERCISES, new_course

MADE = {
    "a hand-out": "handout/t001/90-small-unit/90-small-unit.ipynb",
    "a submission": "submitted/t001/90-small-unit/90-small-unit.ipynb",
    "an attempt": "submitted/t001/attempts/90-small-unit/001/90-small-unit.ipynb",
    "a marked notebook": "autograded/t001/90-small-unit/90-small-unit.ipynb",
    "a printed hand-out": "paper/90-small-unit/handout/t001.html",
    "a printed key": "paper/90-small-unit/key/t001.html",
}
NOBODYS = ("paper/90-small-unit/key/specimen.html", "paper/90-small-unit/job/job.html")


def written(root: Path, text: str) -> Path:
    (root / "term.toml").write_text(text)
    return root


def lay(root: Path, name: str) -> None:
    (root / name).parent.mkdir(parents=True)
    (root / name).write_text("{}")


def test_a_key_is_made_once_and_kept(tmp_path: Path) -> None:
    key = term_key(tmp_path)
    assert len(key) == 32
    assert key == term_key(tmp_path) == tomllib.loads((tmp_path / "term.toml").read_text())["key"]


def test_a_key_is_for_nobody_else_to_read(tmp_path: Path) -> None:
    term_key(tmp_path)
    assert (tmp_path / "term.toml").stat().st_mode & 0o077 == 0


def test_a_key_is_added_to_dates_that_were_written_first(tmp_path: Path) -> None:
    written(tmp_path, "[due]\n05-off-idle = 2026-12-04T18:00:00Z\n")
    assert term_key(tmp_path) == read_term(tmp_path).key
    assert read_term(tmp_path).due_for("05-off-idle", "t001") == datetime(
        2026, 12, 4, 18, tzinfo=UTC
    )


@pytest.mark.parametrize("name", MADE.values(), ids=MADE)
def test_no_second_key_is_made_where_something_was_made_with_the_first(
    tmp_path: Path, name: str
) -> None:
    lay(tmp_path, name)
    with pytest.raises(CourseError, match=f"must hold the term's key, with which {name} was made"):
        term_key(tmp_path)
    assert not (tmp_path / "term.toml").exists()


@pytest.mark.parametrize("name", NOBODYS)
def test_pages_for_nobody_need_no_key(tmp_path: Path, name: str) -> None:
    lay(tmp_path, name)
    assert term_key(tmp_path)


def test_a_course_that_was_opened_before_sees_the_loss_too(tmp_path: Path) -> None:
    course = new_course(tmp_path)
    sheet_of(course, EXERCISES, "t001")
    lay(tmp_path, MADE["an attempt"])
    (tmp_path / "term.toml").unlink()
    with pytest.raises(CourseError, match="put it back from your copy"):
        sheet_of(Course.at(tmp_path), EXERCISES, "t001")


def test_dates_without_an_offset_are_this_computers(tmp_path: Path) -> None:
    written(tmp_path, "[due]\n05-off-idle = 2026-12-04T18:00:00\n")
    due = read_term(tmp_path).due_for("05-off-idle", "t001")
    assert due == datetime(2026, 12, 4, 18).astimezone()


def test_a_day_lasts_till_its_end(tmp_path: Path) -> None:
    written(tmp_path, "[due]\n05-off-idle = 2026-12-04\n")
    due = read_term(tmp_path).due_for("05-off-idle", "t001")
    assert due == datetime(2026, 12, 4, 23, 59, 59).astimezone()


def test_one_trainee_may_have_more_time(tmp_path: Path) -> None:
    dates = "05-off-idle = 2026-12-04T18:00:00Z\n[due.t004]\n05-off-idle = 2026-12-06T18:00:00Z\n"
    text = f"[due]\n{dates}"
    term = read_term(written(tmp_path, text))
    own, rest = (term.due_for("05-off-idle", one) for one in ("t004", "t001"))
    assert own is not None
    assert rest is not None
    assert own - rest == timedelta(days=2)


def test_a_unit_without_a_date_has_none(tmp_path: Path) -> None:
    assert read_term(tmp_path).due_for("05-off-idle", "t001") is None


def test_a_rule_on_lateness_is_read(tmp_path: Path) -> None:
    written(tmp_path, '[late]\nrule = "percent-a-day"\npercent = 10\n')
    assert read_term(tmp_path).late == Lateness("percent-a-day", 10)


def test_a_date_for_a_unit_that_is_none_is_refused(tmp_path: Path) -> None:
    course = new_course(tmp_path)
    written(course.root, "[due]\n90-smal-unit = 2026-12-04\n")
    with pytest.raises(
        CourseError, match=r"term\.toml: due 90-smal-unit: unit must be one of 90-s"
    ):
        _ = course.term
    written(course.root, "[due]\n90-small-unit = 2026-12-04\n")
    assert "90-small-unit" in course.term.due


def test_a_date_for_somebody_who_is_not_in_the_class_is_said(tmp_path: Path) -> None:
    course = new_course(tmp_path)
    dates = "90-small-unit = 2026-12-04\n"
    exam = "[exam.90-small-unit]\nlonger = { t001 = 20, t0l4 = 20 }\n"
    written(course.root, f"[due]\n{dates}[due.t001]\n{dates}[due.t0l3]\n{dates}{exam}")
    due, longer = course.strangers()
    assert "term.toml: due t0l3: trainee must be in class.csv, got 't0l3'; the time is" in due
    assert "term.toml: exam 90-small-unit: trainee must be in class.csv, got 't0l4'" in longer


REFUSED = {
    "a table that is none": (
        "[lateness]",
        "name must be one of key, worked, gradebook, due, late, exam, got 'lat",
    ),
    "a key that is none": ("[late]\nrules = 1", "key of late must be one of rule, percent, got 'r"),
    "no TOML": ("key = ", "term.toml must be TOML"),
    "a short key": ('key = "abc"', "key must be text of 8 characters or more, got 'abc'"),
    "a number for a key": ("key = 12345678", "key must be text of 8 characters or more"),
    "an empty key": ('key = ""', "key must be text of 8 characters or more, got ''"),
    "no date": ('[due]\n05-off-idle = "soon"', "due 05-off-idle must be like 2026-12-04T18:00:00"),
    "dates without a class": ("[due.t004]\n05-off-idle = 2026-12-04", "must go with a date of the"),
    "no table": ("due = 3", "due must be a table of units and dates, got 3"),
    "no such rule": ('[late]\nrule = "halve"', "rule on late must be one of shown, zero, percent"),
    "percent alone": ("[late]\npercent = 5", "percent on late must be between 0 and 100"),
    "no percent": ('[late]\nrule = "percent-a-day"', "percent on late must be between 0 and 100"),
    "too much": ('[late]\nrule = "percent-a-day"\npercent = 101', "must be between 0 and 100"),
}


@pytest.mark.parametrize(("text", "rule"), REFUSED.values(), ids=REFUSED)
def test_a_term_that_cannot_be_used_is_refused_with_its_rule(
    tmp_path: Path, text: str, rule: str
) -> None:
    with pytest.raises(CourseError, match=rule):
        read_term(written(tmp_path, text))


def test_units_whose_answers_may_be_shown_worked_out_are_a_list(tmp_path: Path) -> None:
    assert read_term(written(tmp_path, 'worked = ["05-off-idle"]\n')).worked == {"05-off-idle"}
    assert read_term(written(tmp_path, "")).worked == frozenset()
    with pytest.raises(CourseError, match="worked must be a list of units, got True"):
        read_term(written(tmp_path, "worked = true\n"))

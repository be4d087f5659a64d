"""What lateness costs is the instructor's rule, whatever has been marked by hand since."""

import json
import shutil
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from fuelmarks.authoring.build import build
from fuelmarks.book.class_record import class_record
from fuelmarks.book.pages import class_page, marks_csv, trainee_page
from fuelmarks.book.record import Entry
from fuelmarks.classroom.collect import collect
from fuelmarks.classroom.hand_out import hand_out
from fuelmarks.classroom.mark_class import Done, mark_class
from fuelmarks.course.course import Course
from fuelmarks.runner import Runner
from nbgrader.api import Gradebook

from tests.classroom.box import Box
from tests.small_unit import UNIT, new_course

RIGHT = 'seat_area = Q(3.14159 * seat_bore.m**2 / 4, "mm**2")'
WRONG_KIND = 'seat_area = "1 kg"'


@pytest.fixture(scope="module")
def handed_out(tmp_path_factory: pytest.TempPathFactory) -> Course:
    """A class of two, handed out to."""
    course = new_course(tmp_path_factory.mktemp("course"), trainees=2)
    build(course, UNIT)
    list(hand_out(course, UNIT))
    return course


@dataclass
class MarkedBox(Box):
    """A box, and what marks what lies in it."""

    runner: Runner = field(kw_only=True)

    def mark(self) -> list[Done]:
        """Mark what was collected; return what became of each."""
        return list(mark_class(self.course, UNIT, runner=self.runner))


@pytest.fixture
def box(handed_out: Course, tmp_path: Path, runner: Runner) -> MarkedBox:
    """A box in which t001 came in time and t002 two days and an hour late, both right."""
    shutil.copytree(handed_out.root, tmp_path / "course")
    box = MarkedBox(Course.at(tmp_path / "course"), tmp_path / "returned", runner=runner)
    for trainee, day, hour in (("t001", 9, 12), ("t002", 12, 13)):
        notebook = box.notebook(trainee, "", "The float lifts.")
        box.cell(notebook, "90-seat-area-answer")["source"] = RIGHT
        box.put(f"{trainee}.ipynb", json.dumps(notebook), day, hour)
    return box


def marked(box: MarkedBox, rule: str) -> list[Entry]:
    """Return what the class has, with a due date and this rule on lateness."""
    with (box.course.root / "term.toml").open("a") as file:
        file.write(f"[due]\n{UNIT} = 2026-11-10T12:00:00Z\n{rule}")
    collect(box.course, UNIT, box.root)
    box.mark()
    return list(class_record(box.course, UNIT).entries)


RULES = {
    "none": ("", 0.0),
    "shown": ('[late]\nrule = "shown"\n', 0.0),
    "zero": ('[late]\nrule = "zero"\n', 2.0),
    "ten percent a day": ('[late]\nrule = "percent-a-day"\npercent = 10\n', 0.6),
    "fifty percent a day": ('[late]\nrule = "percent-a-day"\npercent = 50\n', 2.0),
}


@pytest.mark.parametrize(("rule", "less"), RULES.values(), ids=RULES)
def test_lateness_costs_what_the_rule_says(box: MarkedBox, rule: str, less: float) -> None:
    first, second = marked(box, rule)
    assert (first.penalty, first.points) == (0, 2)
    assert second.penalty == pytest.approx(less)
    assert second.points == pytest.approx(2 - less)


def test_more_time_for_one_is_no_lateness(box: MarkedBox) -> None:
    entries = marked(box, f'[due.t002]\n{UNIT} = 2026-11-13\n[late]\nrule = "zero"\n')
    assert [entry.points for entry in entries] == [2, 2]
    assert [entry.came.lateness for entry in entries] == ["on time", "on time"]


def test_points_given_by_hand_later_are_under_the_rule_too(box: MarkedBox) -> None:
    marked(box, '[late]\nrule = "zero"\n')
    with Gradebook(box.course.gradebook) as book:
        book.find_grade("90-say-it", UNIT, UNIT, "t002").manual_score = 3
        book.db.commit()
    assert class_record(box.course, UNIT).entries[1].points == 0
    box.mark()
    with Gradebook(box.course.gradebook) as book:
        assert book.find_submission_notebook(UNIT, UNIT, "t002").late_submission_penalty == 5


def test_a_rule_changed_after_marking_counts_from_the_next_report(box: MarkedBox) -> None:
    marked(box, '[late]\nrule = "zero"\n')
    path = box.course.root / "term.toml"
    path.write_text(path.read_text().replace("zero", "shown"))
    assert class_record(box.course, UNIT).entries[1].points == 2


def test_every_total_that_other_dates_or_another_rule_change_has_its_line(box: MarkedBox) -> None:
    marked(box, '[late]\nrule = "percent-a-day"\npercent = 10\n')
    path = box.course.root / "term.toml"
    dated = path.read_text()
    path.write_text(f"{dated}[due.t002]\n{UNIT} = 2026-11-13\n")
    less, more = "late by 2 d 1 h: 0.6 taken off", "on time: nothing taken off"
    assert said(box) == [f"t002: {less} -> {more}; 1.4 -> 2"]
    assert said(box) == []
    path.write_text(dated)
    assert said(box) == [f"t002: {more} -> {less}; 2 -> 1.4"]
    path.write_text(dated.replace("10\n", "50\n"))
    assert said(box) == [f"t002: {less} -> {less.replace('0.6', '2')}; 1.4 -> 0"]


def test_an_attempt_that_comes_late_has_a_line_for_what_that_costs(box: MarkedBox) -> None:
    marked(box, '[late]\nrule = "zero"\n')
    notebook = box.notebook("t001", "", "The float lifts more.")
    box.cell(notebook, "90-seat-area-answer")["source"] = RIGHT
    box.put("later.ipynb", json.dumps(notebook), 10, 15)
    collect(box.course, UNIT, box.root)
    assert said(box)[-1] == ("t001: on time: nothing taken off -> late by 3 h: 2 taken off; 2 -> 0")


def said(box: MarkedBox) -> list[str]:
    """Return a line for every change that marking once more tells."""
    return [f"{one.trainee}: {change.words}" for one in box.mark() for change in one.changes]


def test_lateness_and_attempt_stand_on_the_pages_and_in_the_table(box: MarkedBox) -> None:
    marked(box, '[late]\nrule = "zero"\n')
    record = class_record(box.course, UNIT)
    page = trainee_page(record, record.entries[1], {})
    when = record.entries[1].came.when
    assert f"Attempt 1 of 1, handed in {when}, late by 2 d 1 h: 2 points less." in page
    assert "late by 2 d 1 h, 2 points less" in class_page(record, {})
    lines = marks_csv(record).splitlines()
    assert lines[0].split(",")[9:13] == ["handed in", "late", "attempt", "late penalty"]
    assert lines[1].split(",")[9:13] == [record.entries[0].came.when, "on time", "1", "0"]
    assert lines[2].split(",")[9:13] == [when, "late by 2 d 1 h", "1", "2"]


def test_an_attempt_that_is_not_marked_yet_is_said_everywhere(box: MarkedBox) -> None:
    marked(box, "")
    notebook = box.notebook("t001")
    box.cell(notebook, "90-seat-area-answer")["source"] = WRONG_KIND
    box.put("better.ipynb", json.dumps(notebook), 10)
    collect(box.course, UNIT, box.root)
    record = class_record(box.course, UNIT)
    assert "Attempt 2 is newer and not marked yet." in trainee_page(record, record.entries[0], {})
    assert "attempt 2 not marked yet" in class_page(record, {})
    assert "; attempt 2 not marked yet" in marks_csv(record)
    box.mark()
    assert "not marked yet" not in marks_csv(class_record(box.course, UNIT))


def test_a_due_date_of_nbgraders_counts_where_the_term_has_none(box: MarkedBox) -> None:
    with Gradebook(box.course.gradebook) as book:
        book.update_or_create_assignment(UNIT, duedate="2026-11-10 12:00:00 UTC")
    found = collect(box.course, UNIT, box.root)
    assert [row.late is not None and row.late.days for row in found.rows] == [0, 2]


def test_a_due_date_taken_out_of_the_term_is_taken_out_of_the_book(box: MarkedBox) -> None:
    extension = f"[due.t002]\n{UNIT} = 2026-11-11T12:00:00Z\n"
    assert marked(box, f'{extension}[late]\nrule = "zero"\n')[1].penalty == 2.0
    path = box.course.root / "term.toml"
    path.write_text(path.read_text().partition("[due]")[0])
    collect(box.course, UNIT, box.root)
    done = box.mark()
    (change,) = [one.words for each in done for one in each.changes]
    assert change.endswith("2 taken off -> on time: nothing taken off; 0 -> 2")
    assert [one.penalty for one in class_record(box.course, UNIT).entries] == [0, 0]

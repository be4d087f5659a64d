"""Reports say in words what a class did, hold no answers, run nothing and import cleanly."""

import csv
import io
import re
from pathlib import Path

import pytest
from fuelmarks.authoring.build import build
from fuelmarks.book.class_record import class_record
from fuelmarks.book.class_table import class_table
from fuelmarks.book.pages import class_page, marks_csv, trainee_page, write_reports
from fuelmarks.book.record import ClassRecord, Entry
from fuelmarks.book.spread import spreads
from fuelmarks.classroom.collect import collect
from fuelmarks.classroom.hand_out import hand_out
from fuelmarks.classroom.mark_class import mark_class
from fuelmarks.course.class_list import Trainee
from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.personal import sheet_of
from fuelmarks.demo.invented_class import HABITS
from fuelmarks.questions.frame.drawing import from_si
from fuelmarks.runner import Limits, Runner
from nbgrader.api import Gradebook

from tests.classroom.box import Box
from tests.scratch_class import work_comes_in
from tests.small_unit import EXERCISES, UNIT, new_course


@pytest.fixture(scope="module")
def course(tmp_path_factory: pytest.TempPathFactory) -> Course:
    """A marked class of twelve, one habit each, and a thirteenth who handed in nothing."""
    course = new_course(tmp_path_factory.mktemp("course"), trainees=len(HABITS))
    build(course, UNIT)
    list(hand_out(course, UNIT))
    work_comes_in(course, UNIT)
    list(mark_class(course, UNIT, limits=Limits(cell_seconds=5)))
    with (course.root / "class.csv").open("a") as file:
        file.write("t013,Eve,=1+1,eve@example.invalid\n")
    with Gradebook(course.gradebook) as book:
        book.find_grade("90-say-it", UNIT, UNIT, "t001").manual_score = 3
        book.find_comment("90-say-it", UNIT, UNIT, "t001").manual_comment = "<i>Well</i> said."
        book.db.commit()
    return course


@pytest.fixture(scope="module")
def record(course: Course) -> ClassRecord:
    """What the class did."""
    return class_record(course, UNIT)


@pytest.fixture(scope="module")
def pages(course: Course) -> dict[str, str]:
    """All reports by their path."""
    return {str(p.relative_to(course.root)): p.read_text() for p in write_reports(course, UNIT)}


def test_points_come_from_the_gradebook_with_what_was_marked_by_hand(record: ClassRecord) -> None:
    first = record.entries[0]
    assert (first.points, first.waits) == (12, False)
    assert first.rows[-1].comment == "<i>Well</i> said."


def test_those_without_results_say_why(record: ClassRecord) -> None:
    reasons = {entry.trainee.id: entry.reason for entry in record.entries if not entry.rows}
    assert reasons["t013"] == "nothing handed in"
    assert "got a damaged file" in reasons["t009"]
    assert len(reasons) == 2


def test_class_table_has_a_line_for_everyone_and_a_word_for_every_cell(record: ClassRecord) -> None:
    table = class_table(record)
    assert all(entry.trainee.name in table for entry in record.entries)
    assert re.search(r"First3 Last3 +slip +carr\. +carr\. +hand", table)
    assert "slip = a known slip, told in the comment" in table


def test_pages_have_no_script_and_ask_for_nothing(pages: dict[str, str]) -> None:
    for name, page in pages.items():
        if name.endswith(".html"):
            assert not re.search(r"<script|src=|url\(|https?://", page), name


def test_names_and_comments_are_text_and_not_markup(
    record: ClassRecord, pages: dict[str, str]
) -> None:
    acting = Entry(Trainee("t014", "<b>Eve</b>"), reason="nothing handed in")
    assert "&lt;b&gt;Eve&lt;/b&gt;" in trainee_page(record, acting, {})
    assert "&lt;i&gt;Well&lt;/i&gt; said." in pages[f"reports/{UNIT}/trainees/t001.html"]


def test_class_page_names_slips_and_who_needs_what(pages: dict[str, str]) -> None:
    page = pages[f"reports/{UNIT}/class.html"]
    assert "The bore is a diameter; halve it first." in page
    assert "not yet" in page
    assert 'role="img"' in page


def test_trainee_page_tells_the_comment_and_no_answer_not_handed_over(
    course: Course, pages: dict[str, str]
) -> None:
    page = pages[f"reports/{UNIT}/trainees/t005.html"]
    answers = sheet_of(course, EXERCISES, "t005").answers
    assert "Left blank" in page
    for exercise in EXERCISES.exercises[1:]:
        assert f"{from_si(answers[exercise.id], exercise.unit):.4g}" not in page


def test_a_blank_answer_is_said_to_be_blank_once(pages: dict[str, str]) -> None:
    assert "Left blank.</b> A try can earn part" in pages[f"reports/{UNIT}/trainees/t005.html"]
    assert "<b>Marked by hand.</b>" in pages[f"reports/{UNIT}/trainees/t001.html"]


def test_a_written_answer_left_blank_was_marked_by_nobody(tmp_path: Path, runner: Runner) -> None:
    course = new_course(tmp_path / "course", trainees=1)
    build(course, UNIT)
    list(hand_out(course, UNIT))
    box = Box(course, tmp_path / "returned")
    box.put("a.ipynb", box.notebook("t001"))
    collect(course, UNIT, box.root)
    list(mark_class(course, UNIT, runner=runner))
    record = class_record(course, UNIT)
    row = record.entries[0].rows[-1]
    assert (row.question.by_hand, row.verdict, row.points) == (True, "blank", 0)
    page = trainee_page(record, record.entries[0], {})
    assert "<b>Left blank.</b>" in page
    assert "No response" not in page
    assert "Marked by hand" not in page


def test_the_marks_carry_the_sign_by_which_spreadsheets_know_their_encoding(
    pages: dict[str, str],
) -> None:
    assert pages[f"reports/{UNIT}/marks.csv"].startswith("\ufeffid,")


def test_pages_write_units_as_the_trade_does(course: Course, pages: dict[str, str]) -> None:
    area = sheet_of(course, EXERCISES, "t001").answers["seat-area"]
    shown = f"{from_si(area, 'mm^2'):.4g} mm²"
    assert f"You handed over <b>{shown}</b>." in pages[f"reports/{UNIT}/trainees/t001.html"]
    for name, page in pages.items():
        assert not re.search(r"millimeter|\*\*\d|mm\^", page), name


def test_every_trainee_has_a_page(course: Course, pages: dict[str, str]) -> None:
    for one in course.trainees():
        assert f"reports/{UNIT}/trainees/{one.id}.html" in pages


def test_a_trainee_without_results_is_told_why(record: ClassRecord) -> None:
    assert "nothing handed in" in trainee_page(record, record.entries[-1], {})


def test_marks_import_as_one_line_a_trainee(record: ClassRecord) -> None:
    rows = list(csv.DictReader(io.StringIO(marks_csv(record))))
    assert [row["id"] for row in rows] == [entry.trainee.id for entry in record.entries]
    assert (rows[0]["points"], rows[0]["out of"], rows[0]["percent"]) == ("12", "13", "92.3")
    assert rows[12]["state"] == "nothing handed in"


def test_no_cell_of_a_table_acts_as_a_formula(record: ClassRecord) -> None:
    rows = list(csv.DictReader(io.StringIO(marks_csv(record))))
    assert rows[12]["last name"] == "'=1+1"


def test_class_page_is_the_same_every_time(record: ClassRecord) -> None:
    assert class_page(record, {}) == class_page(record, {})


def test_a_unit_without_marks_is_named(tmp_path: Path) -> None:
    course = new_course(tmp_path)
    build(course, UNIT)
    with pytest.raises(CourseError, match="must be marked before it is reported, got no results"):
        list(write_reports(course, UNIT))


def test_predictions_show_their_spread_their_key_and_everybodys_letters(
    record: ClassRecord, pages: dict[str, str]
) -> None:
    (spread,) = spreads(record)
    letters = [entry.foretold["level"] for entry in record.marked if "level" in entry.foretold]
    assert [one.then for one in spread.chosen] == [
        [said.then for said in letters].count(letter) for letter in "AB"
    ]
    assert sum(one.then for one in spread.chosen) + spread.open_then == len(record.marked)
    assert [one.right for one in spread.chosen] == [True, False]
    assert "It takes more float under the fuel." in pages[f"reports/{UNIT}/class.html"]
    rows = list(csv.reader(io.StringIO(pages[f"reports/{UNIT}/predictions.csv"])))
    assert rows[0][3:] == ["Level at first (right: A)", "Level at the end"]
    assert {row[0]: row[3] for row in rows[1:]} == {
        entry.trainee.id: entry.foretold["level"].then if "level" in entry.foretold else ""
        for entry in record.entries
    }


def test_a_trainee_gets_the_prediction_back(record: ClassRecord) -> None:
    one = next(entry for entry in record.marked if entry.foretold.get("level"))
    text = trainee_page(record, one, {})
    assert f"At first you said <b>{one.foretold['level'].then}</b>" in text
    assert "Right is <b>A</b>, it rises." in text

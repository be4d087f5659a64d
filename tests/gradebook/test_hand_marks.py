"""A mark given by hand belongs to a text; another text takes it back, with a line that says so."""

import json
import shutil
from pathlib import Path
from typing import Any

import pytest
from fuelmarks.authoring.build import build
from fuelmarks.book.class_record import class_record
from fuelmarks.classroom.hand_out import hand_out
from fuelmarks.classroom.mark_class import Done, mark_class
from fuelmarks.course.course import Course
from fuelmarks.gradebook.book import Change
from fuelmarks.gradebook.hand_marks import TakenBack
from fuelmarks.gradebook.settings import complaints, settings
from fuelmarks.runner import Runner
from nbgrader.api import Gradebook
from nbgrader.converters import Autograde, NbGraderException
from nbgrader.coursedir import CourseDirectory
from sqlalchemy import text

from tests.small_unit import UNIT, new_course

FIRST, SECOND = "The float lifts.", "The float lifts until the flows are equal."


@pytest.fixture
def course(tmp_path: Path) -> Course:
    """A course of one, who has handed in words and one answer."""
    course = new_course(tmp_path, trainees=1)
    build(course, UNIT)
    for one in hand_out(course, UNIT):
        shutil.copytree(one.path.parent, course.folder("submitted", UNIT, one.trainee))
    write(course, "90-say-it", FIRST)
    write(course, "90-seat-area-answer", 'seat_area = "3 mm2"')
    return course


def write(course: Course, name: str, words: str) -> None:
    """Write `words` into a cell of what was handed in."""
    path = course.notebook("submitted", UNIT, "t001")
    notebook = json.loads(path.read_text())
    for cell in notebook["cells"]:
        if cell["id"] == name:
            cell["source"] = words
    path.write_text(json.dumps(notebook))


def mark(course: Course, runner: Runner, **asked: Any) -> Done:
    (done,) = mark_class(course, UNIT, runner=runner, **asked)
    return done


def give(course: Course, name: str, points: float, comment: str = "") -> None:
    """Give points by hand, and a comment, as formgrader does."""
    note = name if name == "90-say-it" else f"{name}-answer"
    with Gradebook(course.gradebook) as book:
        grade = book.find_grade(name, UNIT, UNIT, "t001")
        grade.manual_score, grade.needs_manual_grade = points, False
        book.find_comment(note, UNIT, UNIT, "t001").manual_comment = comment or None
        book.db.commit()


def state(course: Course, name: str = "90-say-it") -> tuple[float | None, bool, str | None]:
    """Return the mark by hand, whether the answer waits, and the comment by hand."""
    note = name if name == "90-say-it" else f"{name}-answer"
    with Gradebook(course.gradebook) as book:
        grade = book.find_grade(name, UNIT, UNIT, "t001")
        said = book.find_comment(note, UNIT, UNIT, "t001").manual_comment
        return grade.manual_score, grade.needs_manual_grade, said


def test_another_text_loses_its_mark_and_waits_again(course: Course, runner: Runner) -> None:
    mark(course, runner)
    give(course, "90-say-it", 3, "Well said.")
    write(course, "90-say-it", SECOND)
    done = mark(course, runner)
    assert state(course) == (None, True, None)
    (change,) = done.changes
    assert isinstance(change, Change)
    assert (change.question, change.before, change.after) == ("90-say-it", 3, None)
    assert change.taken == TakenBack(3, "Well said.")
    assert change.words == (
        "90-say-it: 3 with the comment 'Well said.', given by hand for another answer, "
        "is taken back; it waits to be marked by hand"
    )


def test_the_report_counts_it_as_waiting(course: Course, runner: Runner) -> None:
    mark(course, runner)
    give(course, "90-say-it", 3)
    assert class_record(course, UNIT).entries[0].points == 3
    write(course, "90-say-it", SECOND)
    mark(course, runner)
    entry = class_record(course, UNIT).entries[0]
    assert (entry.points, entry.waits) == (0, True)


def test_another_answer_elsewhere_leaves_the_mark(course: Course, runner: Runner) -> None:
    mark(course, runner)
    give(course, "90-say-it", 3, "Well said.")
    write(course, "90-seat-area-answer", 'seat_area = "4 mm2"')
    assert mark(course, runner).changes == ()
    assert state(course)[::2] == (3, "Well said.")


@pytest.mark.parametrize("words", [FIRST, f"{FIRST}\n", f"  {FIRST}", FIRST.replace(" ", "\n")])
def test_the_same_words_keep_their_mark(course: Course, runner: Runner, words: str) -> None:
    mark(course, runner)
    give(course, "90-say-it", 3, "Well said.")
    write(course, "90-say-it", words)
    mark(course, runner, again=True)
    assert state(course)[::2] == (3, "Well said.")


def test_a_mark_given_over_a_machines_goes_with_its_answer(course: Course, runner: Runner) -> None:
    mark(course, runner)
    give(course, "90-seat-area", 1.5, "Half of it.")
    write(course, "90-seat-area-answer", 'seat_area = "4 mm2"')
    (change,) = mark(course, runner).changes
    assert (change.before, change.after) == (1.5, 0)
    assert state(course, "90-seat-area")[::2] == (None, None)


def test_a_comment_alone_is_taken_back_too(course: Course, runner: Runner) -> None:
    mark(course, runner)
    with Gradebook(course.gradebook) as book:
        book.find_comment("90-say-it", UNIT, UNIT, "t001").manual_comment = "See me."
        book.db.commit()
    write(course, "90-say-it", SECOND)
    (change,) = mark(course, runner).changes
    assert isinstance(change, Change)
    assert change.taken == TakenBack(None, "See me.")


def test_an_answer_emptied_again_is_worth_nothing(course: Course, runner: Runner) -> None:
    mark(course, runner)
    give(course, "90-say-it", 3)
    write(course, "90-say-it", "")
    (change,) = mark(course, runner).changes
    assert (change.before, change.after) == (3, 0)


def test_the_first_marking_changes_nothing(course: Course, runner: Runner) -> None:
    assert mark(course, runner).changes == ()


def test_a_mark_survives_the_loss_of_the_marked_notebooks(course: Course, runner: Runner) -> None:
    mark(course, runner)
    give(course, "90-say-it", 3, "Well said.")
    shutil.rmtree(course.root / "autograded")
    assert mark(course, runner).state == "marked"
    assert state(course)[::2] == (3, "Well said.")


def test_a_gradebook_of_before_gets_its_table_and_loses_no_mark(
    course: Course, runner: Runner
) -> None:
    mark(course, runner)
    give(course, "90-say-it", 3)
    with Gradebook(course.gradebook) as book:
        book.db.execute(text("drop table fuelmarks_entered"))
        book.db.commit()
    mark(course, runner, again=True)
    assert state(course)[0] == 3
    write(course, "90-say-it", SECOND)
    mark(course, runner)
    assert state(course)[0] is None


NBGRADERS = pytest.mark.filterwarnings("ignore:Object of type <Submitted.* not in session")
"""nbgrader's own converter makes SQLAlchemy warn; in a process of its own nobody sees it."""


def autograde(course: Course) -> None:
    """Do what ``nbgrader autograde --force`` does."""
    config = settings(course)
    directory = CourseDirectory(config=config, root=str(course.root), assignment_id=UNIT)
    Autograde(coursedir=directory, config=config, force=True).start()


@NBGRADERS
def test_nbgraders_own_command_takes_it_back_too(
    course: Course, runner: Runner, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(course.root)
    autograde(course)
    give(course, "90-say-it", 3, "Well said.")
    autograde(course)
    assert state(course)[::2] == (3, "Well said.")
    write(course, "90-say-it", SECOND)
    autograde(course)
    assert state(course) == (None, True, None)


@NBGRADERS
def test_both_ways_of_marking_know_each_others_texts(
    course: Course, runner: Runner, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(course.root)
    autograde(course)
    give(course, "90-say-it", 3)
    give(course, "90-seat-area", 1)
    mark(course, runner)
    autograde(course)
    assert (state(course)[0], state(course, "90-seat-area")[0]) == (3, 1)


@NBGRADERS
def test_nbgraders_own_command_passes_over_anothers_work(
    course: Course, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(course.root)
    write(course, "90-begin", 'sheet = begin("90-small-unit", trainee="t002", mode="class")')
    with complaints() as heard, pytest.raises(NbGraderException):
        autograde(course)
    assert "90-small-unit of t001 is passed over: it is the notebook of t002" in "\n".join(heard)

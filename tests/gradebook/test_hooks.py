"""nbgrader's own commands, through its configuration alone: autograde, feedback, export.

Its release and fetch, which give everybody the same notebook, refuse.

That `nbgrader autograde` gives the marks of ``fuelmarks mark`` is shown in test_same_marks.
"""

import csv
import json
import re
import subprocess
import sys
from typing import Any, NamedTuple

import pytest
from fuelmarks.authoring.build import build
from fuelmarks.classroom.hand_out import hand_out
from fuelmarks.course.course import Course
from fuelmarks.course.notebook import grade_id, new_cell, notebook, read, write
from fuelmarks.course.personal import sheet_of
from fuelmarks.gradebook.hooks import RunApart
from fuelmarks.gradebook.settings import settings
from fuelmarks.questions import load
from fuelmarks.questions.frame.drawing import from_si
from nbgrader.api import Gradebook
from nbgrader.coursedir import CourseDirectory
from nbgrader.exchange import ExchangeError, ExchangeFactory
from traitlets import TraitError
from traitlets.config import Config

from tests.places import TOP
from tests.scratch_class import own_jupyter

UNIT = "02-float-bowl"
CHECKOUT = TOP
SCRIPT = "<script>hit()</script>\n\n**Words** of the trainee."


class Said(NamedTuple):
    """How a command ended, and what it logged."""

    status: int
    log: str


COMMANDS = {
    "autograde": f"autograde {UNIT}",
    "feedback": f"generate_feedback {UNIT}",
    "export": "export --to points.csv",
    "release": f"release_assignment {UNIT}",
    "fetch": f"fetch_assignment {UNIT}",
    "release of earlier": f"copy release/{UNIT} exchange/fuelcircuits/outbound/{UNIT}",
    "fetch of earlier": f"fetch_assignment {UNIT}",
}
"""One after the other in one process, for to load nbgrader takes longer than most of them do."""


@pytest.fixture(scope="module")
def course(tmp_path_factory: pytest.TempPathFactory) -> Course:
    """A course of two trainees, one of whom hands in; marked and given back by nbgrader."""
    root = tmp_path_factory.mktemp("course")
    for name in ("units", "rigs"):
        (root / name).symlink_to(CHECKOUT / "course" / name)
    (root / "nbgrader_config.py").write_text((CHECKOUT / "course/nbgrader_config.py").read_text())
    (root / "term.toml").write_text('key = "a key for tests"\n')
    (root / "class.csv").write_text("id,first name,last name,email\nada,Ada,One,\nbo,Bo,Two,\n")
    course = Course.at(root)
    build(course, UNIT)
    list(hand_out(course, UNIT))
    answer_two(course)
    return course


def answer_two(course: Course) -> None:
    """Hand in one right answer, one right number without a unit, and a script."""
    exercise_set = load(UNIT)
    sheet = sheet_of(course, exercise_set, "ada")
    notebook = read(course.notebook("handout", UNIT, "ada"))
    for cell in notebook.cells:
        for exercise, kind in zip(exercise_set.exercises, ("Q({}, '{}')", "{}"), strict=False):
            if grade_id(cell) == f"02-{exercise.id}-answer":
                value = from_si(sheet.answers[exercise.id], exercise.unit)
                cell.source = f"{exercise.variable} = {kind.format(value, exercise.unit)}"
        if grade_id(cell) == "02-two-complaints":
            cell.source = SCRIPT
    course.folder("submitted", UNIT, "ada").mkdir(parents=True)
    write(notebook, course.notebook("submitted", UNIT, "ada"))


@pytest.fixture(scope="module")
def said(course: Course) -> dict[str, Said]:
    """What became of nbgrader's commands."""
    done = subprocess.run(
        [sys.executable, "-m", "tests.gradebook.nbgraders_own", *COMMANDS.values()],
        cwd=course.root,
        env={**own_jupyter(course.root / "jupyter"), "PYTHONPATH": str(TOP)},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    told = json.loads(done.stdout.splitlines()[-1])
    return {name: Said(*one) for name, one in zip(COMMANDS, told, strict=True)}


@pytest.fixture(scope="module")
def marked(course: Course, said: dict[str, Said]) -> Course:
    """The course after ``nbgrader autograde``."""
    assert said["autograde"].status == 0, said["autograde"].log
    return course


@pytest.fixture(scope="module")
def feedback(marked: Course, said: dict[str, Said]) -> str:
    """The page that the trainee gets back from ``nbgrader generate_feedback``."""
    assert said["feedback"].status == 0, said["feedback"].log
    return (marked.folder("feedback", UNIT, "ada") / f"{UNIT}.html").read_text()


def test_autograde_enters_marks_and_comments(marked: Course) -> None:
    with Gradebook(marked.gradebook) as book:
        right = book.find_grade("02-needle-force", UNIT, UNIT, "ada")
        bare = book.find_comment("02-buoyancy-answer", UNIT, UNIT, "ada")
        assert right.auto_score == right.max_score
        assert "A number alone says nothing" in bare.auto_comment


def test_written_question_waits_for_a_hand(marked: Course) -> None:
    with Gradebook(marked.gradebook) as book:
        grade = book.find_grade("02-two-complaints", UNIT, UNIT, "ada")
        assert (grade.auto_score, grade.needs_manual_grade) == (None, True)


def test_feedback_tells_the_comment_and_never_the_answer(marked: Course, feedback: str) -> None:
    exercise_set = load(UNIT)
    answer = sheet_of(marked, exercise_set, "ada").answers["pump-level-shift"]
    assert "A number alone says nothing" in feedback
    assert f"{from_si(answer, exercise_set['pump-level-shift'].unit):.4g}" not in feedback


def test_feedback_runs_no_script_and_keeps_the_words(feedback: str) -> None:
    assert "<script" not in feedback
    assert feedback.count("hit()") == feedback.count("&lt;script&gt;hit()&lt;/script&gt;")
    assert "<strong>Words</strong> of the trainee." in feedback


def test_feedback_asks_no_other_machine_for_anything(feedback: str) -> None:
    assert re.findall(r'(?:src|href)="(?:https?:)?//[^"]*', feedback) == []


def test_export_lists_the_points(marked: Course, said: dict[str, Said]) -> None:
    assert said["export"].status == 0, said["export"].log
    rows = csv.DictReader((marked.root / "points.csv").read_text().splitlines())
    assert {row["student_id"]: float(row["score"]) for row in rows}["ada"] == 2


EXCHANGED = {
    "release": "which gives all of them the same; nothing was released",
    "fetch": "which gives all of them the same; nothing was fetched",
    "fetch of earlier": "which gives all of them the same; nothing was fetched",
}


@pytest.mark.parametrize(("step", "sentence"), EXCHANGED.items(), ids=EXCHANGED)
def test_the_exchange_hands_nothing_out_and_says_what_does(
    marked: Course, said: dict[str, Said], step: str, sentence: str
) -> None:
    assert said[step].status != 0
    assert f"must be handed out by `fuelmarks hand-out {UNIT}`" in said[step].log
    assert sentence in said[step].log
    assert "Traceback" not in said[step].log


def test_nothing_came_into_the_exchange_or_out_of_it(marked: Course) -> None:
    earlier = marked.root / "exchange" / "fuelcircuits" / "outbound" / UNIT / f"{UNIT}.ipynb"
    assert list((marked.root / "exchange").rglob("*.ipynb")) == [earlier]
    assert not (marked.root / UNIT).exists()


def test_formgraders_button_gets_the_same_sentence(marked: Course) -> None:
    config = settings(marked)
    exchange = ExchangeFactory(config=config)
    directory = CourseDirectory(config=config, assignment_id=UNIT)
    with pytest.raises(ExchangeError, match="must be handed out by `fuelmarks hand-out"):
        exchange.ReleaseAssignment(coursedir=directory, authenticator=None).start()


SLOW = "import time\ntime.sleep(2)"


def run_apart(**settings: Any) -> list[str]:
    """Return how the cells of a notebook ended that takes two seconds, then two again."""
    cells = [new_cell("code", SLOW, name="one"), new_cell("code", SLOW, name="two")]
    hook = RunApart(config=Config({"RunApart": settings}))
    ran, _ = hook.preprocess(notebook([*cells, new_cell("code", "1", name="last")], {}), {})
    return [cell.outputs[0].get("ename", "ok") if cell.outputs else "ok" for cell in ran.cells]


LIMITED = [
    ({}, ["ok", "ok", "ok"]),
    ({"cell_seconds": 0.5}, ["timeout", "timeout", "ok"]),
    ({"notebook_seconds": 3.0}, ["ok", "timeout", "not-reached"]),
]


@pytest.mark.parametrize(("settings", "ends"), LIMITED)
def test_the_course_sets_how_long_a_cell_and_a_notebook_may_run(
    settings: dict[str, float], ends: list[str]
) -> None:
    assert run_apart(**settings) == ends


@pytest.mark.parametrize("name", ["cell_seconds", "notebook_seconds"])
@pytest.mark.parametrize("seconds", [0, -1.0, float("inf"), float("nan")])
def test_a_limit_that_is_none_is_refused(name: str, seconds: float) -> None:
    with pytest.raises(TraitError, match=rf"RunApart\.{name} must be a positive number of seconds"):
        RunApart(config=Config({"RunApart": {name: seconds}}))

"""What a class's notebooks come to: verdicts, points, limits, lateness, and files beside them."""

import sqlite3
from pathlib import Path

import pytest
from fuelmarks.authoring.build import build
from fuelmarks.classroom.hand_out import hand_out
from fuelmarks.classroom.mark_class import Done
from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.notebook import read
from fuelmarks.demo.invented_class import HABITS
from fuelmarks.gradebook.opening import new_gradebook
from nbgrader.api import Gradebook, get_alembic_version

from tests.classroom.marks import Marker, rows, states
from tests.scratch_class import work_comes_in
from tests.small_unit import UNIT, new_course


@pytest.fixture(scope="module")
def handed_in(tmp_path_factory: pytest.TempPathFactory) -> Course:
    """A class of twelve that has handed in, one habit each; nothing is marked."""
    course = new_course(tmp_path_factory.mktemp("course"), trainees=len(HABITS))
    build(course, UNIT)
    list(hand_out(course, UNIT))
    work_comes_in(course, UNIT)
    return course


@pytest.fixture(scope="module")
def marked(handed_in: Course, mark: Marker) -> dict[str, Done]:
    """What became of each of the twelve."""
    found = {done.trainee: done for done in mark(handed_in)}
    return {habit: found[one.id] for habit, one in zip(HABITS, handed_in.trainees(), strict=True)}


VERDICTS = {
    "right": ["right", "right", "right"],
    "right in other units": ["right", "right", "right"],
    "one slip, carried on": ["slip:radius", "follow-through", "follow-through"],
    "half of it blank": ["right", "blank", "blank"],
    "an exception": ["right", "missing", "right"],
    "an endless loop": ["right", "right", "missing"],
    "text with decimal commas": ["right", "right", "right"],
    "wrong kinds and no units": ["wrong-dimension", "no-unit", "right"],
}


@pytest.mark.parametrize(("habit", "verdicts"), VERDICTS.items(), ids=VERDICTS)
def test_a_habit_earns_its_verdicts(
    marked: dict[str, Done], habit: str, verdicts: list[str]
) -> None:
    marks = marked[habit].marks
    assert marks is not None
    assert [one.verdict for one in marks.marks] == verdicts


def test_a_copied_cell_costs_nothing(marked: dict[str, Done]) -> None:
    assert marked["cells copied"].state == "marked"


def test_a_deleted_answer_is_missing_and_the_rest_counts(marked: dict[str, Done]) -> None:
    marks = marked["cells deleted"].marks
    assert marks is not None
    assert marks["needle-force"].verdict == "missing"
    assert marks["float-lift"].points > 0


def test_a_broken_file_is_named_and_passed_over(marked: dict[str, Done]) -> None:
    broken = marked["file broken off"]
    assert broken.state == "passed over"
    assert "must be a whole notebook, got a damaged file" in broken.reason


def test_points_reach_the_gradebook(handed_in: Course, marked: dict[str, Done]) -> None:
    with Gradebook(handed_in.gradebook) as book:
        for done in marked.values():
            if done.marks is not None:
                found = book.find_submission_notebook(UNIT, UNIT, done.trainee)
                assert (found.score, found.max_score) == (done.marks.points, 13)


def test_written_questions_wait_for_a_hand(handed_in: Course, marked: dict[str, Done]) -> None:
    waiting = {name for _, name, _, waits in rows(handed_in) if waits}
    assert waiting == {"90-say-it"}
    assert len(marked) == 12


def test_the_grader_sees_the_rubric_in_the_marked_notebook(
    handed_in: Course, marked: dict[str, Done]
) -> None:
    path = handed_in.notebook("autograded", UNIT, marked["right"].trainee)
    assert "1 point: says it." in path.read_text()


def test_a_blank_written_answer_gets_nothing_as_in_nbgrader(mark: Marker, two: Course) -> None:
    states(mark(two))
    assert {(score, waits) for _, name, score, waits in rows(two) if name == "90-say-it"} == {
        (0, 0)
    }


def test_lateness_is_noted_and_costs_what_nbgrader_is_told(mark: Marker, two: Course) -> None:
    with (two.root / "nbgrader_config.py").open("a") as file:
        file.write('c.LateSubmissionPlugin.penalty_method = "zero"\n')
    with Gradebook(two.gradebook) as book:
        book.update_or_create_assignment(UNIT, duedate="2026-01-10 12:00:00 UTC")
    for day, trainee in enumerate(("t001", "t002"), start=10):
        noted = two.folder("submitted", UNIT, trainee) / "timestamp.txt"
        noted.write_text(f"2026-01-{day} 11:00:00 UTC\n")
        path = two.notebook("submitted", UNIT, trainee)
        right = 'Q(3.14159 * seat_bore.m**2 / 4, \\"mm**2\\")'
        path.write_text(path.read_text().replace('seat_area = \\"\\"', f"seat_area = {right}"))
    states(mark(two))
    with Gradebook(two.gradebook) as book:
        found = [book.find_submission_notebook(UNIT, UNIT, one) for one in ("t001", "t002")]
        assert [one.score for one in found] == [2, 2]
        assert [one.late_submission_penalty for one in found] == [None, 2]


def test_files_beside_a_submission_go_along_but_no_links(mark: Marker, two: Course) -> None:
    folder = two.folder("submitted", UNIT, "t001")
    (folder / "note.txt").write_text("mine")
    (folder / "key").symlink_to(two.root / "term.toml")
    states(mark(two))
    beside = {path.name for path in two.folder("autograded", UNIT, "t001").iterdir()}
    assert beside == {f"{UNIT}.ipynb", "note.txt"}


def test_files_beside_a_submission_go_along_within_limits(mark: Marker, two: Course) -> None:
    folder = two.folder("submitted", UNIT, "t001")
    (folder / "huge.png").write_bytes(bytes(6_000_000))
    for number in range(30):
        (folder / f"{number:02}.txt").write_text("small")
    states(mark(two))
    names = {path.name for path in two.folder("autograded", UNIT, "t001").iterdir()}
    assert "huge.png" not in names
    assert len(names) == 21


def test_a_marked_notebook_cannot_be_mistaken_for_an_unmarked_one(
    mark: Marker, two: Course
) -> None:
    states(mark(two))
    notebook = read(two.notebook("autograded", UNIT, "t001"))
    assert len(notebook.metadata["fuelmarks"]["digest"]) == 64


def test_a_unit_must_be_built_before_it_is_marked(mark: Marker, tmp_path: Path) -> None:
    course = new_course(tmp_path)
    new_gradebook(course)
    with pytest.raises(CourseError, match="90-small-unit must be built before it is marked"):
        states(mark(course))


def test_the_gradebook_notes_the_version_nbgrader_would(tmp_path: Path) -> None:
    course = new_course(tmp_path)
    new_gradebook(course)
    with sqlite3.connect(tmp_path / "gradebook.db") as book:
        found = book.execute("select version_num from alembic_version").fetchall()
    assert found == [(get_alembic_version(),)]


def test_the_course_sets_the_limits_for_our_command_too(mark: Marker, two: Course) -> None:
    with (two.root / "nbgrader_config.py").open("a") as file:
        file.write("c.RunApart.cell_seconds = 0.5\n")
    path = two.notebook("submitted", UNIT, "t001")
    path.write_text(path.read_text().replace('seat_area = \\"\\"', "import time; time.sleep(2)"))
    first = next(iter(mark(two))).marks
    assert first is not None
    assert "ran too long" in first["seat-area"].comment


@pytest.mark.parametrize("seconds", ["0", "-1", "'10'", "True"])
def test_a_limit_that_is_none_is_named(mark: Marker, two: Course, seconds: str) -> None:
    with (two.root / "nbgrader_config.py").open("a") as file:
        file.write(f"c.RunApart.notebook_seconds = {seconds}\n")
    with pytest.raises(CourseError, match=r"RunApart\.notebook_seconds must be a positive number"):
        states(mark(two))

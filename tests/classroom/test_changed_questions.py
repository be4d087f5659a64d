"""A unit of one's own, and questions changed after the class has answered: no mark is lost."""

import shutil
from collections.abc import Callable
from pathlib import Path
from typing import TypeAlias

import pytest
from fuelmarks.authoring.build import build
from fuelmarks.authoring.new_unit import new_unit
from fuelmarks.book.class_record import class_record
from fuelmarks.book.pages import write_reports
from fuelmarks.classroom.hand_out import hand_out
from fuelmarks.classroom.mark_class import Done, mark_class
from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.notebook import grade_id, read, write
from fuelmarks.course.personal import sheet_of
from fuelmarks.gradebook.entered import entered
from fuelmarks.questions.frame.drawing import answer_code
from fuelmarks.runner import Runner

from tests.small_unit import HERE

UNIT = "20-our-float"
Marker: TypeAlias = Callable[[Course], list[Done]]


@pytest.fixture(scope="module")
def mark(runner: Runner) -> Marker:
    return lambda course: list(mark_class(course, UNIT, runner=runner))


@pytest.fixture
def course(tmp_path: Path) -> Course:
    """A course with the skeleton of a unit, and a class of two."""
    (tmp_path / "units").mkdir()
    (tmp_path / "term.toml").write_text('key = "a key for tests"\n')
    shutil.copy(HERE / "course" / "nbgrader_config.py", tmp_path)
    rows = "t001,Ada,Floatwell,\nt002,Bram,Jetson,\n"
    (tmp_path / "class.csv").write_text(f"id,first name,last name,email\n{rows}")
    made = Course.at(tmp_path)
    new_unit(made, UNIT)
    build(made, UNIT)
    return made


def answered(course: Course, factor: float = 1.0) -> None:
    """Hand out, and hand in with right answers times a factor."""
    for one in hand_out(course, UNIT):
        exercise_set = course.questions(UNIT)
        sheet = sheet_of(course, exercise_set, one.trainee)
        notebook = read(one.path)
        for cell in notebook.cells:
            name = grade_id(cell)[3:].removesuffix("-answer")
            if grade_id(cell).endswith("-answer"):
                exercise = exercise_set[name]
                code = answer_code(exercise, factor * sheet.answers[name])
                cell.source = f"{exercise.variable} = {code}"
            elif name == "say-why":
                cell.source = "The seat leaks, so the level creeps up."
        folder = course.folder("submitted", UNIT, one.trainee)
        folder.mkdir(parents=True)
        write(notebook, folder / f"{UNIT}.ipynb")


def change(course: Course, old: str, new: str) -> None:
    path = course.root / "units" / UNIT / "questions.toml"
    text = path.read_text()
    assert old in text
    path.write_text(text.replace(old, new, 1))


def add(course: Course, text: str) -> None:
    path = course.root / "units" / UNIT / "questions.toml"
    path.write_text(path.read_text() + text)


def points(course: Course) -> dict[str, dict[str, float | None]]:
    return {who: dict(one.points) for who, one in entered(course, UNIT).items()}


def states(done: list[Done]) -> list[tuple[str, str]]:
    return [(one.state, one.reason) for one in done]


def test_skeleton_is_handed_out_marked_and_reported(course: Course, mark: Marker) -> None:
    answered(course)
    assert states(mark(course)) == [("marked", ""), ("marked", "")]
    assert points(course)["t001"] == {"20-seat-area": 1, "20-needle-push": 2, "20-say-why": None}
    assert any("class.html" in path.name for path in write_reports(course, UNIT))


def test_trainees_never_get_the_questions_file(course: Course) -> None:
    answered(course)
    assert [path.name for path in course.folder("release", UNIT).iterdir()] == [f"{UNIT}.ipynb"]
    assert [path.name for path in course.folder("handout", UNIT, "t001").iterdir()] == [
        f"{UNIT}.ipynb"
    ]


def test_other_points_are_marked_again_and_nothing_else(course: Course, mark: Marker) -> None:
    answered(course)
    mark(course)
    assert states(mark(course)) == [("kept", ""), ("kept", "")]
    change(course, "points  = 2", "points  = 5")
    build(course, UNIT)
    assert states(mark(course)) == [("marked", ""), ("marked", "")]
    assert points(course)["t002"] == {"20-seat-area": 1, "20-needle-push": 5, "20-say-why": None}


def test_marking_waits_for_the_build(course: Course, mark: Marker) -> None:
    answered(course)
    change(course, "points  = 2", "points  = 5")
    (reason, _) = [one.reason for one in mark(course)]
    assert "must be built again: needle-push is worth 5 points now, got 2 in the release" in reason


def test_wider_tolerance_keeps_the_numbers_and_lifts_the_marks(
    course: Course, mark: Marker
) -> None:
    answered(course, 1.04)
    mark(course)
    assert points(course)["t001"]["20-seat-area"] == 0
    add(course, '\n[[change]]\nid = "seat-area"\ntolerance = 0.05\n')
    build(course, UNIT)
    done = mark(course)
    assert [one.marks is not None and one.marks["seat-area"].verdict for one in done] == [
        "right",
        "right",
    ]
    assert done[0].changes[0].words == "20-seat-area: 0 becomes 1"


def test_voided_question_counts_for_nobody(course: Course, mark: Marker) -> None:
    answered(course)
    mark(course)
    add(course, '\n[[change]]\nid = "seat-area"\nvoid = "The figure was missing."\n')
    build(course, UNIT)
    done = mark(course)[0]
    assert done.marks is not None
    assert (done.marks.points, done.marks.out_of) == (2, 2)
    assert done.marks["seat-area"].verdict == "void"
    record = class_record(course, UNIT)
    assert record.out_of == 4
    assert record.entries[0].rows[0].comment.startswith("This question counts for nobody: The fig")
    list(write_reports(course, UNIT))


def test_voided_question_still_carries_its_value(course: Course, mark: Marker) -> None:
    answered(course, 1.3)
    add(course, '\n[[change]]\nid = "seat-area"\nvoid = "The figure was missing."\n')
    build(course, UNIT)
    done = mark(course)[0]
    assert done.marks is not None
    assert done.marks["needle-push"].verdict == "follow-through"


def test_written_question_can_be_voided_too(course: Course, mark: Marker) -> None:
    answered(course)
    mark(course)
    add(course, '\n[[change]]\nid = "say-why"\nvoid = "Nobody had read it."\n')
    build(course, UNIT)
    mark(course)
    assert points(course)["t001"]["20-say-why"] == 0
    assert class_record(course, UNIT).entries[0].waits is False


ADDED = """
[[question]]
id      = "needle-pull"
ask     = "The float pulls **{float_pull}**. How much is left over the push?"
formula = "left = float_pull - needle_push  # what is left"
unit    = "N"
expect  = "0.2 to 3"
points  = 3
"""
GIVEN = 'pump_pressure = "3.8 to 6.2 step 0.1 psi | the pump\'s pressure on the gauge"'


def test_added_question_loses_no_mark_and_keeps_the_numbers(course: Course, mark: Marker) -> None:
    answered(course)
    mark(course)
    numbers = sheet_of(course, course.questions(UNIT), "t001").givens_shown
    change(course, GIVEN, f'{GIVEN}\nfloat_pull = "1 to 2 step 0.1 N | the pull of the float"')
    add(course, ADDED)
    build(course, UNIT)
    assert states(mark(course)) == [("marked", ""), ("marked", "")]
    now = sheet_of(course, course.questions(UNIT), "t001").givens_shown
    assert {name: now[name] for name in numbers} == dict(numbers)
    assert points(course)["t001"] == {
        "20-seat-area": 1,
        "20-needle-push": 2,
        "20-needle-pull": 0,
        "20-say-why": None,
    }
    cells = [grade_id(cell)[3:] for cell in read(course.notebook("release", UNIT)).cells]
    assert [name for name in cells if name][-3:] == [
        "needle-pull-ask",
        "needle-pull-answer",
        "needle-pull",
    ]


def test_question_that_was_answered_cannot_be_taken_away(course: Course, mark: Marker) -> None:
    answered(course)
    mark(course)
    path = course.root / "units" / UNIT / "questions.toml"
    text = path.read_text()
    start, end = text.index('[[question]]\nid      = "needle-push"'), text.index("# A question in")
    path.write_text(text[:start] + text[end:])
    unit = course.text(UNIT)
    unit.write_text(unit.read_text().replace(":::{exercise} needle-push\n:::\n", ""))
    before = course.notebook("release", UNIT).read_bytes()
    with pytest.raises(CourseError, match="got no needle-push; to count them no more, void them"):
        build(course, UNIT)
    assert course.notebook("release", UNIT).read_bytes() == before


def test_a_question_that_was_taken_away_earns_nothing_by_itself(
    course: Course, mark: Marker
) -> None:
    """nbgrader itself gives full points to whatever raises no error."""
    answered(course, 3.0)
    path = course.root / "units" / UNIT / "questions.toml"
    text = path.read_text()
    start, end = text.index('[[question]]\nid      = "needle-push"'), text.index("# A question in")
    path.write_text(text[:start] + text[end:])
    (reason, _) = [one.reason for one in mark(course)]
    assert "must be built again: needle-push is no question now" in reason


def test_a_failed_build_leaves_the_last_release(course: Course) -> None:
    before = course.notebook("release", UNIT).read_bytes()
    config = course.root / "nbgrader_config.py"
    config.write_text(
        config.read_text() + 'c.IncludeHeaderFooter.header = "nowhere.ipynb"\n'
        "c.GenerateAssignment.preprocessors.insert("
        '0, "nbgrader.preprocessors.IncludeHeaderFooter")\n'
    )
    change(course, "points  = 2", "points  = 5")
    with pytest.raises(CourseError, match="nbgrader must be able to release"):
        build(course, UNIT)
    assert course.notebook("release", UNIT).read_bytes() == before
    assert not (course.root / ".release.part").exists()


def test_worked_answers_stand_on_trainees_pages_if_the_term_allows_it(
    course: Course, mark: Marker
) -> None:
    answered(course, 1.3)
    mark(course)
    (page,) = (path for path in write_reports(course, UNIT) if path.name == "t001.html")
    assert "<math" not in page.read_text()
    term = course.root / "term.toml"
    term.write_text(f'{term.read_text()}worked = ["{UNIT}"]\n')
    list(write_reports(course, UNIT))
    assert "Worked in your own numbers" in page.read_text()
    assert page.read_text().count("<math") == 2

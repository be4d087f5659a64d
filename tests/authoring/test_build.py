"""A unit's text becomes a notebook: nothing of the key gets out, and building again is the same."""

import json
import re
from dataclasses import replace
from pathlib import Path

import nbformat
import pytest
from fuelmarks.authoring.build import build, source_notebook, specimen_sheet
from fuelmarks.course.cells import exercise_cells
from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.notebook import NotebookNode, grade_id, read, text_of
from fuelmarks.questions import load
from fuelmarks.questions.frame.drawing import from_si
from nbgrader.api import Gradebook

from tests.places import COURSE_FOLDER
from tests.small_unit import EXERCISES, TEXT, UNIT, new_course

COMMITTED = COURSE_FOLDER

WRONG = {
    "an exercise nobody wrote": (
        TEXT.replace("{exercise} float-lift", "{exercise} float-drop"),
        "exercise must be one of seat-area, needle-force, float-lift, got 'float-drop'",
    ),
    "an exercise left out": (
        TEXT.replace(":::{exercise} float-lift\n:::\n", ""),
        "exercise must be asked in the text, got no 'float-lift'",
    ),
    "an exercise twice": (
        TEXT + "\n:::{exercise} seat-area\n:::\n",
        "name must be used once, is on line 25, got 'seat-area'",
    ),
    "exercises out of order": (
        TEXT.replace("seat-area", "X")
        .replace("needle-force", "seat-area")
        .replace("X", "needle-force"),
        "exercises must stand in the order of their set, got",
    ),
    "no set-up cell": (TEXT.replace(":::{begin}\n:::\n", ""), "must have one :::{begin}, got none"),
    "a prediction without choices": (
        re.sub(r"level\n.*?:::", "level\n:::", TEXT, flags=re.S),
        "predict must have text inside, got ''",
    ),
    "a rig that is not there": (
        TEXT.replace("{begin}", "{begin} rig=heron"),
        "rig must be one of , got 'heron'",
    ),
}


@pytest.fixture(scope="module")
def course(tmp_path_factory: pytest.TempPathFactory) -> Course:
    """A course whose small unit has been built."""
    course = new_course(tmp_path_factory.mktemp("course"))
    build(course, UNIT)
    return course


@pytest.fixture(scope="module")
def release(course: Course) -> NotebookNode:
    """What a trainee opens."""
    return read(course.notebook("release", UNIT))


def named(notebook: NotebookNode, name: str) -> NotebookNode:
    cells: list[NotebookNode] = notebook.cells
    return next(cell for cell in cells if grade_id(cell) == name)


def test_release_is_a_sound_notebook(release: NotebookNode) -> None:
    nbformat.validate(release)


def test_building_again_changes_no_byte(course: Course) -> None:
    before = course.notebook("release", UNIT).read_bytes()
    assert build(course, UNIT).read_bytes() == before


def test_cells_come_in_the_order_of_the_text(release: NotebookNode) -> None:
    assert [grade_id(cell) for cell in release.cells if grade_id(cell)] == [
        "90-begin",
        *("90-seat-area-ask", "90-seat-area-answer", "90-seat-area"),
        *("90-needle-force-ask", "90-needle-force-answer", "90-needle-force"),
        *("90-float-lift-ask", "90-float-lift-answer", "90-float-lift"),
        *("90-say-it-ask", "90-say-it"),
    ]


def test_source_holds_the_answers_and_the_release_none_of_them(
    course: Course, release: NotebookNode
) -> None:
    source = course.notebook("source", UNIT).read_text()
    for exercise in EXERCISES:
        answer = f"{from_si(specimen_sheet(EXERCISES).answers[exercise.id], exercise.unit):.5g}"
        assert answer in source
        assert answer not in text_of(release)


def test_rubric_stays_with_the_instructor(course: Course, release: NotebookNode) -> None:
    assert "1 point: says it" in course.notebook("source", UNIT).read_text()
    assert "1 point: says it" not in text_of(release)
    assert "MARK SCHEME" not in text_of(release)


def test_an_answer_is_released_as_one_line_to_replace(release: NotebookNode) -> None:
    assert named(release, "90-needle-force-answer").source == (
        'needle_force = ""  # your answer with its unit, between the quotes, for example "1.2 N"'
    )


def test_a_plain_number_is_not_asked_for_as_a_quantity() -> None:
    ratio = replace(EXERCISES["seat-area"], unit="")
    _, answer, _ = exercise_cells(UNIT, ratio, specimen_sheet(EXERCISES))
    assert answer.source.splitlines()[0].endswith(
        'a plain number between the quotes, for example "1.2"'
    )


def test_the_locked_cell_hands_the_value_over(release: NotebookNode) -> None:
    cell = named(release, "90-needle-force")
    fits = 'unit="N", low=0.01, high=20'
    assert cell.source == (
        f'hand_over("90-small-unit", "needle-force", lambda: needle_force, {fits})'
    )
    assert (cell.metadata.editable, cell.metadata.nbgrader.points) == (False, 4)


def test_questions_show_the_givens_of_the_set_up_cell(release: NotebookNode) -> None:
    bore = specimen_sheet(EXERCISES).givens_shown["seat_bore"]
    assert f"a bore of {bore.text}" in named(release, "90-seat-area-ask").source
    assert f"seat_bore = {bore.literal}" in named(release, "90-begin").source


def test_release_has_no_outputs_and_names_no_folder(course: Course, release: NotebookNode) -> None:
    assert all(cell.outputs == [] for cell in release.cells if cell.cell_type == "code")
    assert str(course.root) not in text_of(release)


def test_every_cell_has_an_id_of_its_own(release: NotebookNode) -> None:
    ids = [cell.id for cell in release.cells]
    assert len(set(ids)) == len(ids)


def test_ids_of_other_cells_stay_when_a_cell_is_put_in(tmp_path: Path) -> None:
    text = tmp_path / "unit.md"
    text.write_text(TEXT)
    before = {cell.id for cell in source_notebook(text, EXERCISES, tmp_path).cells}
    text.write_text(TEXT.replace("# A small unit", "New words.\n\n+++\n\n# A small unit"))
    after = {cell.id for cell in source_notebook(text, EXERCISES, tmp_path).cells}
    assert before < after


def test_files_beside_the_text_go_with_the_release(tmp_path: Path) -> None:
    course = new_course(tmp_path)
    (tmp_path / "units" / UNIT / "bowl.svg").write_text("<svg/>")
    build(course, UNIT)
    assert (course.folder("release", UNIT) / "bowl.svg").read_text() == "<svg/>"


def test_the_card_of_the_rig_goes_into_the_notebook(tmp_path: Path) -> None:
    course = new_course(tmp_path, TEXT.replace("{begin}", "{begin} rig=heron"))
    (tmp_path / "rigs").mkdir()
    (tmp_path / "rigs" / "heron.toml").write_text('name = "heron"\n')
    found = read(build(course, UNIT))
    assert named(found, "90-card").source == '%%writefile heron.toml\nname = "heron"'
    assert 'rig = read_rig("heron.toml")' in named(found, "90-begin").source


@pytest.mark.parametrize(("text", "message"), WRONG.values(), ids=WRONG)
def test_what_is_wrong_in_a_text_is_named(tmp_path: Path, text: str, message: str) -> None:
    path = tmp_path / "unit.md"
    path.write_text(text)
    with pytest.raises(CourseError, match=re.escape(message)):
        source_notebook(path, EXERCISES, tmp_path)


def test_an_unknown_unit_is_named(course: Course) -> None:
    with pytest.raises(CourseError, match="unit must be one of 90-small-unit, got '91-other'"):
        build(course, "91-other")


def test_cells_cannot_be_taken_away_once_something_is_marked(tmp_path: Path) -> None:
    course = new_course(tmp_path)
    build(course, UNIT)
    with_submission(course)
    course.text(UNIT).write_text(re.sub(r":::\{written\}.*?\n:::\n", "", TEXT, flags=re.S))
    rule = "must keep the questions that the class was handed out, got no say-it"
    with pytest.raises(CourseError, match=rule):
        build(course, UNIT)


def with_submission(course: Course) -> None:
    with Gradebook(course.gradebook) as book, book.db.no_autoflush:
        book.add_student("t001")
        book.add_submission(UNIT, "t001")


@pytest.mark.parametrize("unit", Course(COMMITTED).units())
def test_committed_release_is_what_the_text_builds(tmp_path: Path, unit: str) -> None:
    course = new_course(tmp_path)
    for name in ("units", "rigs"):
        (tmp_path / name).mkdir(exist_ok=True)
    for name in (unit, "limits.toml"):
        (tmp_path / "units" / name).symlink_to(COMMITTED / "units" / name)
    (tmp_path / "rigs").rmdir()
    (tmp_path / "rigs").symlink_to(COMMITTED / "rigs")
    built = json.loads(build(course, unit).read_text())
    assert built == json.loads(Course(COMMITTED).notebook("release", unit).read_text())
    assert load(unit).unit == unit

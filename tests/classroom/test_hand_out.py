"""Each trainee gets numbers of his own; what comes back is put where marking looks for it."""

import os
import tomllib
from pathlib import Path

import pytest
from fuelmarks.authoring.build import build
from fuelmarks.classroom.hand_out import collect, hand_out
from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.notebook import grade_id, read
from fuelmarks.course.personal import sheet_of

from tests.small_unit import EXERCISES, UNIT, new_course

LISTS = {
    "no header": ("t001,Ada\n", "line 1: must be id, first name, last name, email"),
    "empty": ("", "line 1: must be id"),
    "a path for an id": ("id\n../up\n", "line 2: id must be letters, digits, - and _, got '../up'"),
    "an id twice": ("id\nt1\n\nt1\n", "line 4: id must be used once, got 't1'"),
}


@pytest.fixture(scope="module")
def course(tmp_path_factory: pytest.TempPathFactory) -> Course:
    """A course handed out to twelve trainees."""
    course = new_course(tmp_path_factory.mktemp("course"), trainees=12)
    build(course, UNIT)
    list(hand_out(course, UNIT))
    return course


@pytest.fixture
def returned(tmp_path: Path) -> Path:
    """An empty folder for what comes back."""
    (tmp_path / "returned").mkdir()
    return tmp_path / "returned"


def sources(course: Course, trainee: str) -> dict[str, str]:
    cells = read(course.notebook("handout", UNIT, trainee)).cells
    return {grade_id(cell): cell.source for cell in cells if grade_id(cell)}


def test_numbers_differ_from_trainee_to_trainee(course: Course) -> None:
    drawn = {
        sources(course, one.id)["90-begin"].partition("# Your")[2] for one in course.trainees()
    }
    assert len(drawn) >= 11


def test_a_trainee_gets_the_numbers_that_marking_will_draw(course: Course) -> None:
    sheet = sheet_of(course, EXERCISES, "t002")
    cells = sources(course, "t002")
    assert f"supply_pressure = {sheet.givens_shown['supply_pressure'].literal}" in cells["90-begin"]
    assert sheet.givens_shown["seat_bore"].text in cells["90-seat-area-ask"]


def test_a_handed_out_notebook_is_in_class_mode_under_its_name(course: Course) -> None:
    line = 'sheet = begin("90-small-unit", trainee="t003", mode="class")'
    assert line in sources(course, "t003")["90-begin"]


def test_handing_out_again_leaves_notebooks_alone(course: Course) -> None:
    path = course.notebook("handout", UNIT, "t001")
    before = path.stat().st_mtime_ns
    list(hand_out(course, UNIT))
    assert path.stat().st_mtime_ns == before


def test_a_new_key_gives_new_numbers(course: Course, tmp_path: Path) -> None:
    other = new_course(tmp_path, trainees=12)
    (tmp_path / "term.toml").write_text('key = "next term, another key"\n')
    sheets = [
        [sheet_of(c, EXERCISES, f"t{n:03}").givens for n in range(1, 13)] for c in (course, other)
    ]
    assert sheets[0] != sheets[1]


def test_a_key_is_made_once_and_kept(tmp_path: Path) -> None:
    course = new_course(tmp_path)
    (tmp_path / "term.toml").unlink()
    assert course.key == course.key == tomllib.loads((tmp_path / "term.toml").read_text())["key"]


def test_a_short_key_is_refused(tmp_path: Path) -> None:
    course = new_course(tmp_path)
    (tmp_path / "term.toml").write_text('key = "abc"\n')
    with pytest.raises(CourseError, match="key must be text of 8 characters or more, got 'abc'"):
        _ = course.key


def test_a_unit_must_be_built_before_it_is_handed_out(tmp_path: Path) -> None:
    with pytest.raises(CourseError, match="90-small-unit must be built before it is used"):
        list(hand_out(new_course(tmp_path), UNIT))


@pytest.mark.parametrize(("text", "rule"), LISTS.values(), ids=LISTS)
def test_a_class_list_that_cannot_be_used_is_named(tmp_path: Path, text: str, rule: str) -> None:
    course = new_course(tmp_path)
    (tmp_path / "class.csv").write_text(text)
    with pytest.raises(CourseError, match=rule.replace("(", r"\(")):
        course.trainees()


def test_returned_files_are_known_by_name_or_folder(course: Course, returned: Path) -> None:
    (returned / "t003").mkdir()
    for name in ("t001.ipynb", "t002-last try (1).ipynb", "t003/unit.ipynb"):
        (returned / name).write_text("{}")
    assert collect(course, UNIT, returned) == ["t001", "t002", "t003"]
    assert course.notebook("submitted", UNIT, "t002").read_text() == "{}"


def test_the_time_of_the_file_is_the_time_it_was_handed_in(course: Course, returned: Path) -> None:
    (returned / "t004.ipynb").write_text("{}")
    os.utime(returned / "t004.ipynb", (1_700_000_000, 1_700_000_000))
    collect(course, UNIT, returned)
    noted = course.folder("submitted", UNIT, "t004") / "timestamp.txt"
    assert noted.read_text() == "2023-11-14 22:13:20 UTC\n"


def test_files_that_fit_nobody_are_told(course: Course, returned: Path) -> None:
    (returned / "t005.ipynb").write_text("{}")
    for name in ("t005-b.ipynb", "stranger.ipynb", "t0061.ipynb"):
        (returned / name).write_text("{}")
    (returned / "t006.ipynb").symlink_to("/etc/hostname")
    os.utime(returned / "t005.ipynb", (1_700_000_000, 1_700_000_000))
    found = collect(course, UNIT, returned)
    assert found == ["t005"]
    assert found.strange == (
        "stranger.ipynb",
        "t005.ipynb (an older one)",
        "t006.ipynb",
        "t0061.ipynb",
    )


def test_a_folder_that_is_not_there_is_named(course: Course, tmp_path: Path) -> None:
    with pytest.raises(CourseError, match="returned must be a folder of notebooks"):
        collect(course, UNIT, tmp_path / "nowhere")

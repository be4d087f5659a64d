"""The folder of one who learns alone: laid out once, and nothing in it is overwritten."""

import re
from pathlib import Path

import pytest
from fuelmarks.course.course import Course
from fuelmarks.course.notebook import read
from fuelmarks.study.folder import lay_out
from fuelmarks.study.progress import FILE

from tests.places import COURSE_FOLDER
from tests.small_unit import UNIT, new_course


@pytest.fixture
def course(tmp_path: Path) -> Course:
    """A course of one unit, not built."""
    return new_course(tmp_path / "course")


def test_the_course_is_laid_out_and_nothing_of_yours_is_overwritten(
    course: Course, tmp_path: Path
) -> None:
    folder = lay_out(course, tmp_path / "mine")
    mine = folder / UNIT / f"{UNIT}.ipynb"
    mine.write_text("my work")
    (folder / FILE).write_text('{"version": 1, "units": {"mine": {}}}')
    lay_out(course, tmp_path / "mine")
    assert mine.read_text() == "my work"
    assert "mine" in (folder / FILE).read_text()


def test_the_owners_notebook_and_the_glossary_come_along(tmp_path: Path) -> None:
    folder = lay_out(Course(COURSE_FOLDER), tmp_path / "mine")
    assert (folder / "own-car" / "own-car.ipynb").is_file()
    page = (folder / "glossary.html").read_text(encoding="utf-8")
    linked = re.findall(r'href="([^"#]+)"', page)
    assert linked
    assert [one for one in linked if not (folder / one).exists()] == []


def test_the_rubric_is_folded_behind_the_answer_of_one_who_learns_alone(
    course: Course, tmp_path: Path
) -> None:
    mine = lay_out(course, tmp_path / "mine") / UNIT / f"{UNIT}.ipynb"
    cells = read(mine).cells
    at = [cell.id for cell in cells].index("90-say-it-rubric")
    assert cells[at - 1].id == "90-say-it"
    assert "<summary>" in cells[at].source
    assert "- 1 point: says it." in cells[at].source
    assert "says it." not in course.notebook("release", UNIT).read_text()

"""A course that is taken elsewhere has all that was written for it, and nothing of a class."""

from pathlib import Path

from fuelmarks.course.course import Course
from fuelmarks.course.written import FILES, FOLDERS, copy_written
from fuelmarks.paper.pack import lesson_page, term_page

from tests.places import COURSE_FOLDER, TOP

MADE = {"release", "site"}
"""What is made of the course, and what makes the website of it."""
OF_A_CLASS = {"class.csv", "term.toml", "gradebook.db", "observed.csv"}


def test_all_that_is_written_in_the_course_is_known() -> None:
    ignored = (TOP / ".gitignore").read_text().splitlines()
    of_a_class = {line.removeprefix("course/").strip("/") for line in ignored}
    there = {path.name for path in COURSE_FOLDER.iterdir() if path.name[0] not in "._"}
    assert there - MADE - of_a_class == {*FOLDERS, *FILES}


def test_a_pack_made_elsewhere_is_the_same(tmp_path: Path) -> None:
    copy_written(COURSE_FOLDER, tmp_path / "course")
    here, there = Course(COURSE_FOLDER), Course.at(tmp_path / "course")
    unit = here.units()[-1]
    assert lesson_page(there, unit) == lesson_page(here, unit)
    assert term_page(there) == term_page(here)


def test_nothing_of_a_class_goes_along(tmp_path: Path) -> None:
    (tmp_path / "course" / "units").mkdir(parents=True)
    for name in OF_A_CLASS:
        (tmp_path / "course" / name).write_text("theirs")
    copy_written(tmp_path / "course", tmp_path / "other")
    assert [path.name for path in (tmp_path / "other").iterdir()] == ["units"]

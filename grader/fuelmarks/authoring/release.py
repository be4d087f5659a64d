"""The release of a unit: nbgrader makes it beside the last one, which stays until it is whole."""

import shutil
from pathlib import Path

from nbgrader.converters import GenerateAssignment, NbGraderException
from nbgrader.coursedir import CourseDirectory

from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.notebook import NotebookNode
from fuelmarks.gradebook.later_cells import add_later_cells
from fuelmarks.gradebook.opening import new_gradebook
from fuelmarks.gradebook.settings import complaints, settings

__all__ = ["release"]

PART = ".release.part"
"""Folder of the course in which a release is made before it takes its place."""


def release(course: Course, unit: str, source: NotebookNode) -> None:
    """Let nbgrader make the release of `unit` and enter it in the gradebook.

    `source` is the instructor's notebook, which lies in the folder of sources already. Raises
    `CourseError` if no release can be made; the last one is then as it was.
    """
    part = course.root / PART
    shutil.rmtree(part, ignore_errors=True)
    new_gradebook(course)
    add_later_cells(course, unit, source.cells)
    try:
        _generate(course, unit)
        _put_in_place(part / unit, course.folder("release", unit))
    finally:
        shutil.rmtree(part, ignore_errors=True)


def _generate(course: Course, unit: str) -> None:
    """Let nbgrader make the release in a folder of its own."""
    config = settings(course)
    config.CourseDirectory.release_directory = PART
    directory = CourseDirectory(config=config, root=str(course.root), assignment_id=unit)
    with complaints() as heard:
        try:
            GenerateAssignment(coursedir=directory, config=config, force=True).start()
        except NbGraderException as error:
            why = next((line for line in heard if "Error: " in line), str(error))
            raise CourseError(f"nbgrader must be able to release {unit}, got {why}") from error


def _put_in_place(new: Path, place: Path) -> None:
    """Put a folder in the place of another, which is there until then."""
    old = place.with_name(f".{place.name}.old")
    if old.exists() and not place.exists():
        old.rename(place)
    shutil.rmtree(old, ignore_errors=True)
    place.parent.mkdir(exist_ok=True)
    if place.exists():
        place.rename(old)
    new.rename(place)
    shutil.rmtree(old, ignore_errors=True)

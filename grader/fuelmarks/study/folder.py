"""The folder of somebody who learns alone: the course laid out, and a file of progress."""

import shutil
from pathlib import Path

from fuelmarks.authoring.glossary import glossary_page
from fuelmarks.authoring.own_car import NAME as OWN_CAR
from fuelmarks.course.course import Course
from fuelmarks.course.notebook import write
from fuelmarks.course.unit_questions import copy_questions
from fuelmarks.study.notebook import study_notebook
from fuelmarks.study.progress import FILE, Progress, write_progress
from fuelmarks.study.telling import OUTCOMES

__all__ = ["lay_out"]


def lay_out(course: Course, into: Path) -> Path:
    """Copy the course to where the learner works, and begin a progress file.

    Nothing of the learner's is overwritten; the glossary and the list of outcomes, which are
    nobody's work, are made anew. A unit that has not been built is built first.
    """
    folder = into.resolve()
    folder.mkdir(parents=True, exist_ok=True)
    for unit in course.units():
        _lay_out_unit(course, unit, folder)
    if (own := course.root / "release" / OWN_CAR).is_dir() and not (folder / OWN_CAR).exists():
        shutil.copytree(own, folder / OWN_CAR)
    if (course.root / "glossary.toml").is_file():
        (folder / "glossary.html").write_text(glossary_page(course, "."), encoding="utf-8")
    if (outcomes := course.root / OUTCOMES).is_file():
        shutil.copyfile(outcomes, folder / OUTCOMES)
    if not (folder / FILE).exists():
        write_progress(folder / FILE, Progress())
    return folder


def _lay_out_unit(course: Course, unit: str, folder: Path) -> None:
    """Copy one unit, unless the learner has it."""
    if not course.notebook("release", unit).exists():
        from fuelmarks.authoring.build import build  # noqa: PLC0415 - the course comes built

        build(course, unit)
    copy_questions(course.root, unit, folder)
    if not (mine := folder / unit / f"{unit}.ipynb").exists():
        shutil.copytree(course.folder("release", unit), folder / unit, dirs_exist_ok=True)
        write(study_notebook(course, unit), mine)

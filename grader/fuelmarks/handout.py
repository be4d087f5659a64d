"""Hand a unit out, each trainee with numbers of his own, and collect what comes back."""

import copy
import os
import shutil
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

from fuelmarks.cells import ask_id, ask_source, begin_id, begin_source
from fuelmarks.course import Course, CourseError
from fuelmarks.exercises import ExerciseSet, Sheet, draw, load, seed_of
from fuelmarks.notebook import NotebookNode, grade_id, read, write

__all__ = [
    "Collected",
    "collect",
    "hand_out",
    "personal",
    "release_notebook",
    "sheet_of",
    "with_rubrics",
]


class Collected(list[str]):
    """The trainees whose notebooks were collected; `strange` are files that fit nobody."""

    strange: tuple[str, ...] = ()


def release_notebook(course: Course, unit: str) -> NotebookNode:
    """Return the release of `unit`; raise `CourseError` if it has not been built."""
    path = course.notebook("release", unit)
    if not path.exists():
        raise CourseError(f"{unit} must be built before it is used, got no file {path}")
    return read(path)


def sheet_of(course: Course, exercise_set: ExerciseSet, trainee: str) -> Sheet:
    """Return the numbers that belong to `trainee` this term."""
    return draw(exercise_set, seed_of(trainee, exercise_set.unit, course.key))


def personal(
    release: NotebookNode, exercise_set: ExerciseSet, sheet: Sheet, trainee: str
) -> NotebookNode:
    """Return `release` with the numbers of `trainee` in its set-up cell and its questions."""
    unit = exercise_set.unit
    own = {ask_id(unit, one.id): ask_source(one, sheet) for one in exercise_set}
    rig = release.metadata.get("fuelcircuits", {}).get("rig", "")
    own[begin_id(unit)] = begin_source(exercise_set, sheet, trainee, "class", rig)
    notebook = copy.deepcopy(release)
    for cell in notebook.cells:
        cell.source = own.get(grade_id(cell), cell.source)
    return notebook


def with_rubrics(release: NotebookNode, stored: dict[str, str]) -> NotebookNode:
    """Return `release` with the locked text nbgrader keeps, which holds the rubrics."""
    for cell in release.cells:
        if cell.metadata.get("nbgrader", {}).get("locked"):
            cell.source = stored.get(grade_id(cell), cell.source)
    return release


def hand_out(course: Course, unit: str) -> Iterator[Path]:
    """Write a notebook for every trainee of the class and yield its path.

    A notebook that lies there already is left as it is.
    """
    exercise_set, release = load(unit), release_notebook(course, unit)
    for trainee in course.trainees():
        folder = course.folder("handout", unit, trainee.id)
        path = course.notebook("handout", unit, trainee.id)
        if not path.exists():
            shutil.copytree(course.folder("release", unit), folder, dirs_exist_ok=True)
            sheet = sheet_of(course, exercise_set, trainee.id)
            write(personal(release, exercise_set, sheet, trainee.id), path)
        yield path


def collect(course: Course, unit: str, returned: Path) -> Collected:
    """Copy returned notebooks to where marking looks for them.

    `returned` holds one file a trainee, ``<trainee>.ipynb`` or ``<trainee>-anything.ipynb``, or
    one folder a trainee. A file's own time counts as the time it was handed in, and the newest
    of two counts.
    """
    if not returned.is_dir():
        raise CourseError(f"returned must be a folder of notebooks, got {returned}")
    course.text(unit)
    known = {trainee.id for trainee in course.trainees()}
    collected, strange = Collected(), []
    newest_first = sorted(returned.rglob("*.ipynb"), key=lambda path: -path.lstat().st_mtime)
    for path in newest_first:
        trainee = _whose(path.relative_to(returned), known)
        if trainee is None or path.is_symlink() or not path.is_file():
            strange.append(str(path.relative_to(returned)))
        elif trainee in collected:
            strange.append(f"{path.relative_to(returned)} (an older one)")
        else:
            _keep(course, unit, trainee, path)
            collected.append(trainee)
    collected.sort()
    collected.strange = tuple(sorted(strange))
    return collected


def _whose(path: Path, known: set[str]) -> str | None:
    """Return the trainee whose id a folder or the file's name carries, the longest that fits."""
    names = [*path.parts[:-1], path.stem]
    fits = [
        trainee
        for trainee in known
        for name in names
        if name == trainee or name.startswith((f"{trainee}-", f"{trainee}_", f"{trainee} "))
    ]
    return max(fits, key=len, default=None)


def _keep(course: Course, unit: str, trainee: str, path: Path) -> None:
    """Copy one returned notebook, and note when it was handed in."""
    target = course.notebook("submitted", unit, trainee)
    target.parent.mkdir(parents=True, exist_ok=True)
    part = target.with_suffix(".part")
    shutil.copyfile(path, part)
    os.replace(part, target)
    when = datetime.fromtimestamp(path.stat().st_mtime, UTC)
    (target.parent / "timestamp.txt").write_text(f"{when:%Y-%m-%d %H:%M:%S} UTC\n")

"""Hand a unit out, each trainee with numbers of his own, and collect what comes back."""

import os
import shutil
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.notebook import write
from fuelmarks.course.personal import personal, release_notebook, sheet_of
from fuelmarks.questions import load

__all__ = ["Collected", "collect", "hand_out"]


class Collected(list[str]):
    """The trainees whose notebooks were collected; `strange` are files that fit nobody."""

    strange: tuple[str, ...] = ()


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

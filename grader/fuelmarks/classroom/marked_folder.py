"""The folder of a marked notebook: put in place whole, with the files that were beside it."""

from collections.abc import Iterator
from pathlib import Path

from fuelmarks.classroom.beside import LARGEST, MOST
from fuelmarks.course.course import Course
from fuelmarks.course.notebook import NotebookNode, short_text_of
from fuelmarks.course.whole_file import put_whole
from fuelmarks.gradebook.submission import SubmissionError

__all__ = ["check_place", "put_marked"]


def check_place(course: Course, unit: str, trainee: str) -> None:
    """Raise `SubmissionError` if something lies where the marked notebook goes that is no file."""
    target = course.notebook("autograded", unit, trainee)
    if target.is_symlink() or (target.exists() and not target.is_file()):
        raise SubmissionError(f"{target} must be free or a plain file, got another kind; move it")


def put_marked(course: Course, unit: str, trainee: str, notebook: NotebookNode) -> None:
    """Write a marked notebook, and before it the files of the unit and of the submission."""
    target = course.notebook("autograded", unit, trainee)
    target.parent.mkdir(parents=True, exist_ok=True)
    own = list(_plain_files(course.folder("submitted", unit, trainee)))
    small = [path for path in own if path.stat().st_size <= LARGEST]
    for path in (*_plain_files(course.folder("source", unit)), *small[:MOST]):
        put_whole(target.parent / path.name, path.read_bytes())
    put_whole(target, short_text_of(notebook).encode(), 0o444)


def _plain_files(folder: Path) -> Iterator[Path]:
    """Yield the files of a folder that are no notebooks, no links and not hidden, in order."""
    for path in sorted(folder.iterdir()) if folder.is_dir() else ():
        plain = path.is_file() and not path.is_symlink() and not path.name.startswith(".")
        if plain and path.suffix != ".ipynb":
            yield path

"""Mark a class: read, put in order, run on all cores, mark, and enter, one writer for all.

A trainee's gradebook rows are entered in one piece, then the marked notebook is put in place
under its final name with a digest of all it was made from. Marking that is stopped at any moment
and started again finds those digests, keeps what is done, and enters the rest.
"""

import hashlib
import json
import os
import shutil
from collections import deque
from collections.abc import Collection, Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from contextlib import nullcontext
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Literal

from nbgrader.utils import parse_utc

import fuelmarks
from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.notebook import NotebookNode, text_of, write
from fuelmarks.course.personal import personal, release_notebook, sheet_of, with_rubrics
from fuelmarks.gradebook.book import Ledger, stored_sources
from fuelmarks.gradebook.results import Results, marks_of, results
from fuelmarks.gradebook.settings import run_limits
from fuelmarks.gradebook.submission import SubmissionError, put_in_order, read_submission
from fuelmarks.marking.marking import Marks
from fuelmarks.questions import ExerciseSet, load
from fuelmarks.runner import Limits, Runner, run_notebook

__all__ = ["Done", "mark_class", "submitted"]


@dataclass(frozen=True)
class Done:
    """What became of one trainee's submission; `reason` says why one was passed over."""

    trainee: str
    state: Literal["marked", "kept", "passed over"]
    marks: Marks | None = None
    reason: str = ""


@dataclass(frozen=True)
class _Marked:
    """One submission on its way to the gradebook."""

    notebook: NotebookNode
    marks: Marks
    found: Results


class _Desk:
    """All that marking one unit needs, made ready once."""

    def __init__(self, course: Course, unit: str, runner: Runner) -> None:
        self.course, self.unit, self.runner = course, unit, runner
        self.limits = run_limits(course, runner.limits)
        self.exercise_set: ExerciseSet = load(unit)
        self.frame = with_rubrics(release_notebook(course, unit), stored_sources(course, unit))
        made_from = [fuelmarks.__file__, unit, course.key, text_of(self.frame)]
        self._made_from = hashlib.sha256(json.dumps(made_from).encode())

    def digest(self, trainee: str, raw: bytes) -> str:
        """Return the fingerprint of everything the marks of this submission come from."""
        found = self._made_from.copy()
        found.update(trainee.encode() + b"\n" + raw + _timestamp_text(self._folder(trainee)))
        return found.hexdigest()

    def work(self, trainee: str, entered: bool) -> _Marked | None:
        """Run and mark one submission; None if that has been done already."""
        raw, returned = read_submission(self.course.notebook("submitted", self.unit, trainee))
        digest = self.digest(trainee, raw)
        if entered and _digest_of(self.course.notebook("autograded", self.unit, trainee)) == digest:
            return None
        sheet = sheet_of(self.course, self.exercise_set, trainee)
        frame = personal(self.frame, self.exercise_set, sheet, trainee)
        notebook = run_notebook(self.runner, put_in_order(returned.cells, frame), self.limits)
        marks = marks_of(notebook, self.exercise_set, sheet)
        notebook.metadata["fuelmarks"] = {"digest": digest}
        return _Marked(notebook, marks, results(notebook, marks))

    def keep(self, trainee: str, notebook: NotebookNode) -> None:
        """Put the marked notebook in place, whole or not at all, with the files beside it."""
        target = self.course.notebook("autograded", self.unit, trainee)
        target.parent.mkdir(parents=True, exist_ok=True)
        for folder in (self.course.folder("source", self.unit), self._folder(trainee)):
            for path in folder.iterdir():
                if path.suffix != ".ipynb" and path.is_file() and not path.is_symlink():
                    shutil.copyfile(path, target.parent / path.name)
        write(notebook, target, 0o444)

    def _folder(self, trainee: str) -> Path:
        return self.course.folder("submitted", self.unit, trainee)


def submitted(course: Course, unit: str, only: Collection[str] = ()) -> list[str]:
    """Return the trainees whose notebook lies in the folder of submissions.

    Raises `CourseError` if one of `only` has none.
    """
    course.text(unit)
    found = sorted(
        path.parent.parent.name
        for path in course.root.glob(f"submitted/*/{unit}/*.ipynb")
        if path.name == f"{unit}.ipynb"
    )
    for trainee in only:
        if trainee not in found:
            raise CourseError(f"trainee must have handed in {unit}, got {trainee!r}")
    return [trainee for trainee in found if trainee in only or not only]


def mark_class(
    course: Course,
    unit: str,
    *,
    only: Collection[str] = (),
    again: bool = False,
    trust: bool = False,
    limits: Limits | None = None,
    runner: Runner | None = None,
) -> Iterator[Done]:
    """Mark the submissions of `unit`, all or `only` some; yield what became of each, in order.

    `again` marks what has been marked already; `trust` runs notebooks without a sandbox. A
    `runner` that is open already is used as it is, and left open.
    """
    waiting = submitted(course, unit, only)
    opened = nullcontext(runner) if runner else Runner(limits=limits, trust=trust)
    with Ledger(course, unit) as ledger, opened as ready:
        ledger.enrol(course.trainees())
        desk = _Desk(course, unit, ready)
        entered = set() if again else ledger.marked()
        for trainee, job in _on_all_cores(desk, waiting, entered):
            try:
                marked = job.result()
            except SubmissionError as error:
                yield Done(trainee, "passed over", reason=str(error))
                continue
            if marked is None:
                yield Done(trainee, "kept")
                continue
            ledger.enter(
                trainee, marked.found, _timestamp(course.folder("submitted", unit, trainee))
            )
            desk.keep(trainee, marked.notebook)
            yield Done(trainee, "marked", marked.marks)


def _on_all_cores(
    desk: _Desk, waiting: list[str], entered: set[str]
) -> Iterator[tuple[str, "Future[_Marked | None]"]]:
    """Yield the jobs in order; only a few more are begun than can run, so memory stays flat."""
    workers = len(os.sched_getaffinity(0))
    begun: deque[tuple[str, Future[_Marked | None]]] = deque()
    with ThreadPoolExecutor(workers, "marking") as pool:
        try:
            for trainee in waiting:
                begun.append((trainee, pool.submit(desk.work, trainee, trainee in entered)))
                if len(begun) > 2 * workers:
                    yield begun.popleft()
            while begun:
                yield begun.popleft()
        finally:
            pool.shutdown(wait=True, cancel_futures=True)


def _digest_of(path: Path) -> str:
    """Return the digest in the marked notebook at `path`, or nothing."""
    try:
        metadata = json.loads(path.read_bytes())["metadata"]
        return str(metadata["fuelmarks"]["digest"])
    except (OSError, ValueError, KeyError, TypeError):
        return ""


def _timestamp_text(folder: Path) -> bytes:
    """Return the note of when a submission was handed in, or nothing."""
    path = folder / "timestamp.txt"
    return path.read_bytes() if path.is_file() and not path.is_symlink() else b""


def _timestamp(folder: Path) -> datetime | None:
    """Return when a submission was handed in (UTC), if that was noted."""
    text = _timestamp_text(folder).decode("utf-8", "replace").strip()
    try:
        when: datetime | None = parse_utc(text) if text else None
    except (ValueError, OverflowError):
        return None
    return when

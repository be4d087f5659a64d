"""Mark a class: read, put in order, run in all places at once, mark, and enter, by one writer.

A trainee's gradebook rows are entered in one piece, then the marked notebook is put in place
under its final name with a digest of all it was made from. Marking that is stopped at any moment
and started again finds those digests, keeps what is done, and enters the rest. Whatever is wrong
with one submission passes over that one; what is wrong with the gradebook stops the class.
"""

import errno
import hashlib
import json
from collections import deque
from collections.abc import Collection, Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from contextlib import nullcontext, suppress
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Literal

from fuelcircuits.errors import CircuitError

from fuelmarks.classroom.attempts import settle
from fuelmarks.classroom.marked_folder import check_place, put_marked
from fuelmarks.classroom.rehearsal import rehearsal
from fuelmarks.course.at_work import at_work
from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.fingerprint import fingerprint
from fuelmarks.course.notebook import NotebookNode, short_text_of
from fuelmarks.course.personal import personal, release_notebook, with_rubrics
from fuelmarks.gradebook.book import Change, Ledger
from fuelmarks.gradebook.claim import claim_in
from fuelmarks.gradebook.entered import stored_sources
from fuelmarks.gradebook.identity import Numbers, misfit
from fuelmarks.gradebook.late_cost import CostChange
from fuelmarks.gradebook.nbgraders import parse_utc
from fuelmarks.gradebook.opening import GradebookError
from fuelmarks.gradebook.results import Results, marks_of, results
from fuelmarks.gradebook.settings import run_limits
from fuelmarks.gradebook.submission import SubmissionError, put_in_order, read_submission
from fuelmarks.marking.marking import Marks
from fuelmarks.questions import ExerciseSet
from fuelmarks.runner import Limits, NotebookRunner, Runner, SandboxError, run_notebook

__all__ = ["Done", "mark_class", "submitted"]

FATAL = (GradebookError, SandboxError)
DISK = (errno.ENOSPC, errno.EDQUOT, errno.EROFS)


@dataclass(frozen=True)
class Done:
    """What became of one trainee's submission; `reason` says why one was passed over.

    `changes` are the points that were others before, and what lateness took from them.
    """

    trainee: str
    state: Literal["marked", "kept", "passed over"]
    marks: Marks | None = None
    reason: str = ""
    changes: tuple[Change | CostChange, ...] = ()


@dataclass(frozen=True)
class _Marked:
    """One submission on its way to the gradebook."""

    notebook: NotebookNode
    marks: Marks
    found: Results


class _Desk:
    """All that marking one unit needs, made ready once."""

    def __init__(self, course: Course, unit: str, runner: NotebookRunner) -> None:
        self.course, self.unit, self.runner = course, unit, runner
        self.limits = run_limits(course, runner.limits)
        self.exercise_set: ExerciseSet = course.questions(unit)
        self.numbers = Numbers(course, self.exercise_set)
        self.everyone = [one.id for one in course.trainees()]
        self.frame = with_rubrics(release_notebook(course, unit), stored_sources(course, unit))
        made_from = [fingerprint(course.root, unit), unit, course.key, short_text_of(self.frame)]
        self._made_from = hashlib.sha256(json.dumps(made_from).encode())

    def digest(self, trainee: str, raw: bytes) -> str:
        """Return the fingerprint of everything the marks of this submission come from."""
        found = self._made_from.copy()
        found.update(trainee.encode() + b"\n" + raw + _timestamp_text(self._folder(trainee)))
        return found.hexdigest()

    def work(self, trainee: str, entered: bool) -> _Marked | None:
        """Run and mark one submission; None if that has been done already."""
        check_place(self.course, self.unit, trainee)
        attempt = settle(self.course, self.unit, trainee)
        raw, returned = read_submission(self.course.notebook("submitted", self.unit, trainee))
        if why := misfit(self.numbers, claim_in(returned.cells), trainee, self.everyone):
            raise SubmissionError(f"{self.unit}.ipynb {why.words}")
        digest = self.digest(trainee, raw)
        if entered and _digest_of(self.course.notebook("autograded", self.unit, trainee)) == digest:
            return None
        sheet = self.numbers.sheet(trainee)
        frame = personal(self.frame, self.exercise_set, sheet, trainee)
        notebook = run_notebook(self.runner, put_in_order(returned.cells, frame), self.limits)
        marks = marks_of(notebook, self.exercise_set, sheet)
        number = attempt.number if attempt else 0
        notebook.metadata["fuelmarks"] = {"digest": digest, "attempt": number}
        return _Marked(notebook, marks, results(notebook, marks))

    def keep(self, trainee: str, notebook: NotebookNode) -> None:
        """Put the marked notebook in place, whole or not at all, with the files beside it."""
        put_marked(self.course, self.unit, trainee, notebook)

    def _folder(self, trainee: str) -> Path:
        return self.course.folder("submitted", self.unit, trainee)


def submitted(course: Course, unit: str, only: Collection[str] = ()) -> list[str]:
    """Return the trainees of whom there is a notebook or an attempt in the folder of submissions.

    Raises `CourseError` if there is none of one of `only`.
    """
    course.text(unit)
    root = course.root / "submitted"
    patterns = (f"*/{unit}/{unit}.ipynb", f"*/attempts/{unit}/[0-9]*")
    found = sorted({path.relative_to(root).parts[0] for one in patterns for path in root.glob(one)})
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
    runner: NotebookRunner | None = None,
) -> Iterator[Done]:
    """Mark the submissions of `unit`, all or `only` some; yield what became of each, in order.

    `again` marks what has been marked already; `trust` runs notebooks without a sandbox. A
    `runner` that is open already is used as it is, and left open.
    """
    opened = nullcontext(runner) if runner else _own_runner(course, unit, only, trust, limits)
    with (
        at_work(course.root, f"marking of {unit}"),
        Ledger(course, unit) as ledger,
        opened as ready,
    ):
        ledger.enrol(course.trainees())
        desk = _Desk(course, unit, ready)
        known = ledger.marked()
        entered = set() if again else known
        waiting = submitted(course, unit, only)
        costs = ledger.settle_lateness(known.intersection(waiting))
        for trainee, job in _on_all_places(desk, waiting, entered):
            changes: list[Change | CostChange] = [costs[trainee]] if trainee in costs else []
            try:
                marked = job.result()
                if marked is not None:
                    when = _timestamp(course.folder("submitted", unit, trainee))
                    changes += ledger.enter(trainee, marked.found, when, known=trainee in known)
                    desk.keep(trainee, marked.notebook)
            except FATAL:
                raise
            except Exception as error:
                full = _no_room(trainee, error)
                reason = "" if full else _about(error)
                yield Done(trainee, "passed over", reason=reason, changes=tuple(changes))
                if full:
                    raise full from error
                continue
            if marked is None:
                yield Done(trainee, "kept", changes=tuple(changes))
            else:
                yield Done(trainee, "marked", marked.marks, changes=tuple(changes))


def _own_runner(
    course: Course, unit: str, only: Collection[str], trust: bool, limits: Limits | None
) -> Runner:
    """Return a runner for this unit alone, not yet open."""
    cells = rehearsal(course, unit, only)
    return Runner(limits=limits, trust=trust, hidden=[course.root], rehearsal=cells)


def _on_all_places(
    desk: _Desk, waiting: list[str], entered: set[str]
) -> Iterator[tuple[str, "Future[_Marked | None]"]]:
    """Yield the jobs in order; only a few more are begun than can run, so memory stays flat."""
    workers = desk.runner.places
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


def _about(error: Exception) -> str:
    """Return what is wrong with one submission."""
    if isinstance(error, CircuitError):
        return str(error)
    return f"{type(error).__name__}: {error}".splitlines()[0]


def _no_room(trainee: str, error: Exception) -> CourseError | None:
    """Return what to say where the disk, and no submission, is what is wrong; None if it is not."""
    if not (isinstance(error, OSError) and error.errno in DISK):
        return None
    rule = f"the disk must have room for the marked notebook of {trainee}"
    again = "make room, then run the same command again; what was entered is kept"
    return CourseError(f"{rule}, got: {error.strerror}; {again}")


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
    """Return when a submission was handed in (UTC, without saying so), if that was noted."""
    text = _timestamp_text(folder).decode("utf-8", "replace").strip()
    with suppress(ValueError, OverflowError):
        when: datetime | None = parse_utc(text) if text else None
        return when
    return None

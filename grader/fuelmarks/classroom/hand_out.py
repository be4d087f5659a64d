"""Hand a unit out, each trainee with numbers of his own.

A notebook is the last thing that is written, in one piece, so a hand-out that is stopped anywhere
and begun again ends as one that was not. What lies there already is compared with the numbers
that the term's key draws: what does not fit is named and left as it is.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from fuelmarks.course.at_work import at_work
from fuelmarks.course.course import Course
from fuelmarks.course.notebook import NotebookNode, write
from fuelmarks.course.personal import personal, release_notebook
from fuelmarks.course.unit_questions import keep_questions
from fuelmarks.course.whole_file import put_whole
from fuelmarks.gradebook.claim import claim_in
from fuelmarks.gradebook.identity import Numbers, misfit
from fuelmarks.gradebook.submission import SubmissionError, read_submission

__all__ = ["HandedOut", "hand_out"]

AWAY = "move it away if nobody works in it, and hand out again"
KEY = "put the term's key back; if the unit was changed, move the notebook away and hand out again"


@dataclass(frozen=True)
class HandedOut:
    """What became of one trainee's notebook; `reason` says why it is not simply there."""

    trainee: str
    path: Path
    state: Literal["made", "there", "made good", "refused"]
    reason: str = ""


def hand_out(course: Course, unit: str) -> Iterator[HandedOut]:
    """Write a notebook for every trainee of the class; yield what became of each, in order.

    A notebook with the trainee's own numbers that lies there already is left as it is.
    """
    release = release_notebook(course, unit)
    with at_work(course.root, f"hand-out of {unit}"):
        keep_questions(course.root, unit)
        desk = _Desk(course, unit, release)
        for trainee in desk.everyone:
            yield desk.give(trainee)


class _Desk:
    """All that handing out one unit needs, made ready once."""

    def __init__(self, course: Course, unit: str, release: NotebookNode) -> None:
        self.course, self.unit, self.release = course, unit, release
        self.numbers = Numbers(course, course.questions(unit))
        self.everyone = [one.id for one in course.trainees()]

    def give(self, trainee: str) -> HandedOut:
        """Write the notebook of `trainee`, unless a good one lies there."""
        path = self.course.notebook("handout", self.unit, trainee)
        if path.is_symlink() or (path.exists() and not path.is_file()):
            return HandedOut(trainee, path, "refused", "must be a plain file, got another kind")
        if not path.exists():
            self._write(trainee, path)
            return HandedOut(trainee, path, "made")
        try:
            _, there = read_submission(path)
        except SubmissionError as error:
            return self._make_good(trainee, path, error)
        if why := misfit(self.numbers, claim_in(there.cells), trainee, self.everyone):
            advice = KEY if why.kind == "other numbers" else AWAY
            return HandedOut(trainee, path, "refused", f"{why.words}; {advice}")
        return HandedOut(trainee, path, "there")

    def _make_good(self, trainee: str, path: Path, error: SubmissionError) -> HandedOut:
        """Put a whole notebook in the place of a damaged one, which is kept beside it."""
        kept = _unused(path.with_suffix(".damaged"))
        path.rename(kept)
        self._write(trainee, path)
        return HandedOut(trainee, path, "made good", f"{error}; what was there is {kept.name}")

    def _write(self, trainee: str, path: Path) -> None:
        """Write the files beside the notebook, then the notebook."""
        path.parent.mkdir(parents=True, exist_ok=True)
        for file in sorted(self.course.folder("release", self.unit).iterdir()):
            beside = path.parent / file.name
            if file.suffix != ".ipynb" and file.is_file() and not beside.exists():
                put_whole(beside, file.read_bytes())
        sheet = self.numbers.sheet(trainee)
        write(personal(self.release, self.numbers.exercise_set, sheet, trainee), path)


def _unused(path: Path) -> Path:
    """Return `path`, with a number if something lies there."""
    number, found = 1, path
    while found.exists():
        number += 1
        found = path.with_name(f"{path.name}-{number}")
    return found

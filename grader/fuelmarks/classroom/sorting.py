"""Tell of each delivered file whose work of which unit it is, and whether it is to be kept."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from fuelmarks.classroom.collected import Outcome
from fuelmarks.classroom.owner import delivered_as
from fuelmarks.course.course import Course
from fuelmarks.course.notebook import NotebookNode
from fuelmarks.course.personal import personal, release_notebook
from fuelmarks.gradebook.claim import Claim, claim_in, salvaged
from fuelmarks.gradebook.identity import Numbers, misfit
from fuelmarks.gradebook.submission import SubmissionError, notebook_in
from fuelmarks.gradebook.written_answer import plain

__all__ = ["Sorter", "Verdict", "is_archive", "is_notebook"]

ARCHIVES = (b"7z\xbc\xaf\x27\x1c", b"Rar!", b"\x1f\x8b", b"BZh", b"\xfd7zXZ", b"PK\x03\x04")
WRITES = re.compile(r"%%writefile\s+(\S+)")
MARKS = (b"\xef\xbb\xbf", b"\xff\xfe", b"\xfe\xff", b"\0", b" ", b"\t", b"\r", b"\n")


@dataclass(frozen=True)
class Verdict:
    """What a file is; to be kept where the outcome says so, with the `text` of its cells."""

    outcome: Outcome
    words: str
    trainee: str = ""
    text: str = ""
    under: tuple[str, ...] = ()
    """As whose work it was delivered, where that is another's."""


def is_archive(raw: bytes) -> bool:
    """Return whether `raw` is an archive that was not opened."""
    return raw.startswith(ARCHIVES)


def is_notebook(name: str, raw: bytes) -> bool:
    """Return whether a file is meant to be a notebook: by its ending, or as an object in JSON."""
    return name.lower().endswith(".ipynb") or raw[:64].lstrip(b"".join(MARKS)).startswith(b"{")


class Sorter:
    """All that is needed to tell the work of one class in one unit, made ready once."""

    def __init__(self, course: Course, unit: str) -> None:
        self.course, self.unit = course, unit
        self.trainees = course.trainees()
        self.everyone = [one.id for one in self.trainees]
        self.numbers = Numbers(course, course.questions(unit))
        self.release = release_notebook(course, unit)

    def names_given(self) -> set[str]:
        """Return the names of files that were handed out, or that the notebook itself writes."""
        folder = self.course.folder("release", self.unit)
        written = (WRITES.match(cell.source) for cell in self.release.cells)
        return {path.name for path in folder.iterdir()} | {hit[1] for hit in written if hit}

    def verdict(self, parts: Sequence[str], raw: bytes, sender: str = "") -> Verdict:
        """Return what a notebook is that lay at `parts`, or that `sender` is known to have sent."""
        as_whose = {sender} if sender else delivered_as(parts, self.unit, self.trainees)
        try:
            cells = notebook_in(raw, "it").cells
        except SubmissionError as error:
            claim = salvaged(raw)
            if not claim.trainee:
                return Verdict("unreadable", str(error))
            return self._refused(as_whose, claim, claim.trainee) or Verdict(
                "damaged", str(error), claim.trainee
            )
        claim = claim_in(cells)
        trainee = claim.trainee or self.numbers.owner(claim, self.everyone)
        return self._refused(as_whose, claim, trainee) or self._whole(trainee, cells)

    def _whole(self, trainee: str, cells: list[NotebookNode]) -> Verdict:
        """Return the verdict on the notebook of `trainee`."""
        sheet = self.numbers.sheet(trainee)
        given = personal(self.release, self.numbers.exercise_set, sheet, trainee).cells
        if [plain(cell.source) for cell in cells] == [plain(cell.source) for cell in given]:
            return Verdict("untouched", "as it was handed out, nothing is written in it", trainee)
        return Verdict("kept", "", trainee, "\n".join(cell.source for cell in cells))

    def _refused(self, as_whose: set[str], claim: Claim, trainee: str) -> Verdict | None:
        """Return why a notebook delivered `as_whose` is not to be kept; None if it is."""
        why = misfit(self.numbers, claim, trainee, self.everyone)
        if why is not None and why.kind in ("another unit", "nobody's"):
            return Verdict(why.kind, why.words, trainee)
        if not trainee:
            return Verdict("nobody's", "shows neither a trainee's name nor the numbers of just one")
        if trainee not in self.everyone:
            return self._stranger(claim, trainee)
        if as_whose and trainee not in as_whose:
            whose = " or ".join(sorted(as_whose))
            words = f"is the work of {trainee}, delivered as {whose}"
            return Verdict("another's", words, trainee, under=tuple(sorted(as_whose)))
        return Verdict(why.kind, why.words, trainee) if why else None

    def _stranger(self, claim: Claim, trainee: str) -> Verdict:
        """Return the verdict on a name that is not in the class list."""
        if owner := self.numbers.owner(claim, self.everyone):
            words = f"holds the numbers of {owner} under the name of {trainee}"
            return Verdict("another's", words, trainee)
        return Verdict("not in the class", f"{trainee} is not in class.csv", trainee)

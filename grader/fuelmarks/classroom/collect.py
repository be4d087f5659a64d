"""Collect what came back: keep every attempt, and put the one that counts where marking looks.

Nothing is moved or changed where it was delivered. Collecting that is stopped anywhere and begun
again ends as one that was not: an attempt is kept whole or not at all, and once.
"""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path

from fuelmarks.classroom.attempts import (
    RESERVED,
    Attempt,
    adopt,
    attempts,
    counting,
    keep,
    retime,
    settle,
)
from fuelmarks.classroom.beside import files_beside
from fuelmarks.classroom.collected import Collected, Outcome, Row, moment
from fuelmarks.classroom.refused import Refusal, note_refusal
from fuelmarks.classroom.returns import Delivered, delivered
from fuelmarks.classroom.sorting import Sorter, Verdict, is_archive, is_notebook
from fuelmarks.course.at_work import at_work
from fuelmarks.course.course import Course
from fuelmarks.gradebook.due import due_dates
from fuelmarks.gradebook.submission import SubmissionError

__all__ = ["collect", "take_in"]


def collect(course: Course, unit: str, returned: Path, when: datetime | None = None) -> Collected:
    """Keep the attempts at `unit` among what was delivered in `returned`; return the table.

    `when` counts as the time of all of them, also of those that are kept already; else each has
    its file's, or its archive's.
    """
    course.text(unit)
    return take_in(course, unit, delivered(returned, when), told=when is not None)


def take_in(
    course: Course, unit: str, files: Iterable[Delivered], *, told: bool = False
) -> Collected:
    """Keep the attempts at `unit` among `files`; `told`: their time was said, and corrects."""
    with at_work(course.root, f"collect of {unit}"):
        desk = _Desk(course, unit, told=told)
        rows = [*desk.found_in_place(), *(row for one in files if (row := desk.take(one)))]
        rows += desk.settled()
    rows.sort(key=lambda row: (row.trainee or "~", row.attempt or 10**6, row.file))
    return Collected(tuple(rows), desk.left(), tuple(desk.absent))


class _Desk:
    """One collection of one unit; `told`: the time was said, and is not that of the files."""

    def __init__(self, course: Course, unit: str, *, told: bool) -> None:
        self.course, self.unit, self.told = course, unit, told
        self.sorter = Sorter(course, unit)
        self.due = due_dates(course, unit, self.sorter.everyone)
        self.given = self.sorter.names_given()
        self.taken: set[tuple[str, ...]] = set()
        self.others: list[Delivered] = []
        self.absent: list[str] = []

    def found_in_place(self) -> Iterator[Row]:
        """Keep what lies where marking looks and is no attempt yet; yield a row for each."""
        for trainee in self.sorter.everyone:
            try:
                one = adopt(self.course, self.unit, trainee)
            except SubmissionError:
                continue
            if one:
                yield self._row(trainee, one, "found where marking looks, kept")

    def take(self, file: Delivered) -> Row | None:
        """Keep what is in `file`, or say why not; None if it is no notebook and no archive."""
        try:
            raw = file.read()
            if is_notebook(file.parts[-1], raw):
                return self._notebook(file, raw)
            if is_archive(raw):
                raise SubmissionError("must be a notebook or a zip, got an archive to unpack first")
        except SubmissionError as error:
            return Row("unreadable", str(error), file.name, handed_in=file.handed_in)
        self.others.append(file)
        return None

    def settled(self) -> Iterator[Row]:
        """Put the attempt that counts in place for everyone; yield a row where that cannot be."""
        for trainee in self.sorter.everyone:
            try:
                if settle(self.course, self.unit, trainee) is None:
                    self.absent.append(trainee)
            except SubmissionError as error:
                yield Row("unreadable", str(error), "", trainee)

    def left(self) -> tuple[str, ...]:
        """Return the files that went with no notebook, but for those that were handed out."""
        rest = [one for one in self.others if one.parts not in self.taken]
        return tuple(one.name for one in rest if one.parts[-1] not in self.given)

    def _notebook(self, file: Delivered, raw: bytes) -> Row:
        """Return the row of a notebook, kept if it is to be."""
        verdict = self.sorter.verdict(file.parts, raw, file.sender)
        if verdict.outcome in ("kept", "damaged"):
            return self._keep(file, raw, verdict)
        if verdict.outcome != "untouched":
            refusal = Refusal(file.name, file.handed_in.isoformat(), verdict.words)
            for trainee in {verdict.trainee, *verdict.under}.intersection(self.sorter.everyone):
                note_refusal(self.course, self.unit, trainee, refusal)
        return Row(verdict.outcome, verdict.words, file.name, verdict.trainee, 0, file.handed_in)

    def _keep(self, file: Delivered, raw: bytes, verdict: Verdict) -> Row:
        """Keep an attempt and return its row."""
        before = counting(attempts(self.course, self.unit, verdict.trainee))
        beside, left = files_beside(verdict.text, file.beside, {*RESERVED, *self.given})
        self.taken |= {(*file.parts[:-1], name) for name in beside}
        one, new = keep(
            *(self.course, self.unit, verdict.trainee, raw),
            handed_in=file.handed_in,
            delivered=file.name,
            beside=beside,
            sent=bool(file.sender),
        )
        notes = "".join(f"; {note}" for note in (verdict.words, file.note, *left) if note)
        if new:
            return self._row(verdict.trainee, one, f"kept{self._beside(one, before)}{notes}")
        if self.told and one.handed_in != file.handed_in:
            notes += f"; time corrected from {moment(one.handed_in)} to {moment(file.handed_in)}"
            one = retime(one, file.handed_in)
        words = f"the same as attempt {one.number}, kept before{notes}"
        row = self._row(verdict.trainee, one, words)
        return replace(row, outcome="kept before", file=file.name)

    def _row(self, trainee: str, one: Attempt, words: str) -> Row:
        """Return the row of an attempt."""
        counts = counting(attempts(self.course, self.unit, trainee))
        due = self.due[trainee]
        late = max(one.handed_in - due, timedelta(0)) if due else None
        outcome: Outcome = "damaged" if not one.whole else "kept" if counts == one else "older"
        return Row(outcome, words, one.delivered, trainee, one.number, one.handed_in, late)

    def _beside(self, one: Attempt, before: Attempt | None) -> str:
        """Return what a new attempt means for the one that counted before it."""
        if before is None:
            return ""
        if not before.whole or (one.whole and one.handed_in >= before.handed_in):
            return f" in the place of attempt {before.number} of {moment(before.handed_in)}"
        why = "is newer and" if one.whole else "can be read and"
        return f", but attempt {before.number} of {moment(before.handed_in)} {why} counts"

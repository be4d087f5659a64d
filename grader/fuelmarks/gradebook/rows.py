"""One submission as the gradebook holds it: read whole, changed in memory, and written.

Of rows that were there only what changed is written, so that a mark that somebody gives in
formgrader meanwhile stays.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Any
from uuid import uuid4

from sqlalchemy import Connection, Table, insert, select, update

from fuelmarks.gradebook.hand_marks import ENTERED, keep_digests
from fuelmarks.gradebook.late_cost import LateCost
from fuelmarks.gradebook.tables import CELL, COMMENT, GRADE, SHEET, SUBMISSION

__all__ = ["Frame", "GradeRow", "NoteRow", "SubmissionRows", "read_rows", "write_rows"]

GRADED = ("GradeCell", "TaskCell")
COMMENTED = ("SolutionCell", "TaskCell")


@dataclass(frozen=True)
class Frame:
    """Where a unit stands in the gradebook, and its cells: id, name, kind."""

    assignment: str
    notebook: str
    cells: tuple[tuple[str, str, str], ...]


@dataclass
class GradeRow:
    """The grade of one cell; `name` is the cell's.

    `digest` is that of the text that is marked, `marked` that of the one that was marked before.
    """

    id: str
    name: str
    cell: str
    auto_score: float | None = None
    manual_score: float | None = None
    extra_credit: float | None = None
    needs_manual_grade: bool = True
    digest: str = ""
    marked: str = ""

    @property
    def points(self) -> float | None:
        """Return the points, None while it waits for a hand."""
        return self.auto_score if self.manual_score is None else self.manual_score

    @property
    def score(self) -> float:
        """Return what counts, with what was added by hand, as nbgrader has it."""
        return 0.0 if self.points is None else self.points + (self.extra_credit or 0.0)


@dataclass
class NoteRow:
    """The comments on one cell; `name` is the cell's."""

    id: str
    name: str
    cell: str
    auto_comment: str | None = None
    manual_comment: str | None = None


@dataclass
class SubmissionRows:
    """All rows of one submission; if `new`, they are not there yet, else `before` is what is."""

    id: str
    trainee: str
    sheet: str
    timestamp: datetime | None = None
    extension: timedelta | None = None
    penalty: float | None = None
    grades: list[GradeRow] = field(default_factory=list)
    notes: list[NoteRow] = field(default_factory=list)
    new: bool = True
    before: Mapping[str, Mapping[str, Any]] = field(default_factory=dict)

    def late(self, due: datetime | None) -> timedelta:
        """Return by how much it is late if its unit was `due` (UTC)."""
        if due is None or self.timestamp is None:
            return timedelta()
        return max(timedelta(), self.timestamp - due - (self.extension or timedelta()))

    def cost(self, due: datetime | None) -> LateCost:
        """Return what its lateness takes, as was worked out last."""
        return LateCost(self.late(due), self.penalty or 0.0, self.score)

    @property
    def score(self) -> float:
        """Return the points, lateness not counted."""
        return sum(one.score for one in self.grades)


def read_rows(book: Connection, frame: Frame, trainee: str) -> SubmissionRows:
    """Return the rows of a trainee's submission; new ones, not written yet, if there are none."""
    asked = (
        select(SUBMISSION, SHEET.c.id.label("sheet"), SHEET.c.late_submission_penalty)
        .join(SHEET, SHEET.c.assignment_id == SUBMISSION.c.id)
        .where(SUBMISSION.c.assignment_id == frame.assignment, SUBMISSION.c.student_id == trainee)
        .where(SHEET.c.notebook_id == frame.notebook)
    )
    row = book.execute(asked).one_or_none()
    if row is None:
        return _new_rows(frame, trainee)
    found = SubmissionRows(
        id=row.id,
        trainee=trainee,
        sheet=row.sheet,
        timestamp=row.timestamp,
        extension=row.extension,
        penalty=row.late_submission_penalty,
        grades=_grades(book, row.sheet),
        notes=_notes(book, row.sheet),
        new=False,
    )
    found.before = {one["id"]: one for held in _held(frame, found).values() for one in held}
    return found


def _grades(book: Connection, sheet: str) -> list[GradeRow]:
    asked = (
        select(GRADE, CELL.c.name, ENTERED.c.digest)
        .join(CELL, CELL.c.id == GRADE.c.cell_id)
        .outerjoin(ENTERED, ENTERED.c.grade_id == GRADE.c.id)
        .where(GRADE.c.notebook_id == sheet)
        .order_by(CELL.c.name)
    )
    return [
        GradeRow(
            id=row.id,
            name=row.name,
            cell=row.cell_id,
            auto_score=row.auto_score,
            manual_score=row.manual_score,
            extra_credit=row.extra_credit,
            needs_manual_grade=row.needs_manual_grade,
            digest=row.digest or "",
            marked=row.digest or "",
        )
        for row in book.execute(asked)
    ]


def _notes(book: Connection, sheet: str) -> list[NoteRow]:
    asked = (
        select(COMMENT, CELL.c.name)
        .join(CELL, CELL.c.id == COMMENT.c.cell_id)
        .where(COMMENT.c.notebook_id == sheet)
    )
    return [
        NoteRow(row.id, row.name, row.cell_id, row.auto_comment, row.manual_comment)
        for row in book.execute(asked)
    ]


def _new_rows(frame: Frame, trainee: str) -> SubmissionRows:
    made = SubmissionRows(_key(), trainee, _key())
    for cell, name, kind in frame.cells:
        if kind in GRADED:
            made.grades.append(GradeRow(_key(), name, cell))
        if kind in COMMENTED:
            made.notes.append(NoteRow(_key(), name, cell))
    return made


def _key() -> str:
    """Return a new id, as nbgrader draws them."""
    return uuid4().hex


def write_rows(book: Connection, frame: Frame, rows: SubmissionRows) -> None:
    """Write what is new or changed of a submission, in the transaction of `book`."""
    for table, held in _held(frame, rows).items():
        if rows.new:
            book.execute(insert(table), held)
            continue
        for one in held:
            before = rows.before[one["id"]]
            changed = {name: value for name, value in one.items() if value != before[name]}
            if changed:
                book.execute(update(table).where(table.c.id == one["id"]).values(changed))
    keep_digests(book, {one.id: one.digest for one in rows.grades if one.digest != one.marked})


def _held(frame: Frame, rows: SubmissionRows) -> dict[Table, list[dict[str, Any]]]:
    """Return the rows of a submission by table, parents first."""
    found = {
        SUBMISSION: [_submission(frame, rows)],
        SHEET: [_sheet(frame, rows)],
        GRADE: [_grade(rows, one) for one in rows.grades],
        COMMENT: [_note(rows, one) for one in rows.notes],
    }
    return {table: held for table, held in found.items() if held}


def _submission(frame: Frame, rows: SubmissionRows) -> dict[str, Any]:
    return {
        "id": rows.id,
        "assignment_id": frame.assignment,
        "student_id": rows.trainee,
        "timestamp": rows.timestamp,
        "extension": rows.extension,
    }


def _sheet(frame: Frame, rows: SubmissionRows) -> dict[str, Any]:
    links = {"id": rows.sheet, "assignment_id": rows.id, "notebook_id": frame.notebook}
    flag = {"flagged": False} if rows.new else {}
    return {**links, "late_submission_penalty": rows.penalty, **flag}


def _grade(rows: SubmissionRows, one: GradeRow) -> dict[str, Any]:
    return {
        "id": one.id,
        "notebook_id": rows.sheet,
        "cell_id": one.cell,
        "auto_score": one.auto_score,
        "manual_score": one.manual_score,
        "needs_manual_grade": one.needs_manual_grade,
    }


def _note(rows: SubmissionRows, one: NoteRow) -> dict[str, Any]:
    said = {"auto_comment": one.auto_comment, "manual_comment": one.manual_comment}
    return {"id": one.id, "notebook_id": rows.sheet, "cell_id": one.cell, **said}

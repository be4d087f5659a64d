"""nbgrader's gradebook, opened once for one unit: what marking enters in it, trainee by trainee."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from types import TracebackType
from typing import Self

from sqlalchemy import Connection, create_engine, insert, select, update

from fuelmarks.course.course import Course, CourseError, Trainee
from fuelmarks.gradebook.given import Given, forget_given, keep_given
from fuelmarks.gradebook.hand_marks import TakenBack, add_tables, take_back
from fuelmarks.gradebook.late_cost import CostChange
from fuelmarks.gradebook.noted_due import due_in, extension, settle_due
from fuelmarks.gradebook.opening import check_gradebook, in_words
from fuelmarks.gradebook.penalty import penalty_of
from fuelmarks.gradebook.results import Results
from fuelmarks.gradebook.rows import (
    Frame,
    GradeRow,
    NoteRow,
    SubmissionRows,
    read_rows,
    write_rows,
)
from fuelmarks.gradebook.tables import ASSIGNMENT, CELL, NOTEBOOK, STUDENT, SUBMISSION

__all__ = ["Change", "Ledger"]


@dataclass(frozen=True)
class Change:
    """Points that are others than before; None: they wait for a hand. `taken` was given by hand."""

    question: str
    before: float | None
    after: float | None
    taken: TakenBack | None = None

    @property
    def words(self) -> str:
        """Return what changed, as a sentence."""
        after = "waits to be marked by hand" if self.after is None else f"becomes {self.after:g}"
        before = "what waited" if self.before is None else f"{self.before:g}"
        if self.taken is None:
            return f"{self.question}: {before} {after}"
        said = f" with the comment {self.taken.comment!r}" if self.taken.comment else ""
        given = f"{before}{said}, given by hand for another answer,"
        return f"{self.question}: {given} is taken back; it {after}"


class Ledger:
    """The gradebook of one course, for one unit: one transaction a trainee."""

    @in_words()
    def __init__(self, course: Course, unit: str) -> None:
        self.unit, self.term = unit, course.term
        self._penalty = penalty_of(course)
        if not check_gradebook(course):
            raise CourseError(f"{unit} must be built before it is marked, got no gradebook")
        self._engine = create_engine(course.gradebook)
        try:
            add_tables(self._engine)
            with self._engine.connect() as book:
                self._frame = _frame(book, unit)
                self._students = set(book.scalars(select(STUDENT.c.id)))
        except BaseException:
            self.close()
            raise

    def __enter__(self) -> Self:
        """Be ready."""
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        """Close the gradebook."""
        self.close()

    def close(self) -> None:
        """Close the gradebook."""
        self._engine.dispose()

    @in_words()
    def enrol(self, trainees: Iterable[Trainee]) -> None:
        """Enter the class list, so that pages show names."""
        with self._engine.begin() as book:
            columns = (STUDENT.c[name] for name in ("id", "first_name", "last_name", "email"))
            known = {row.id: row for row in book.execute(select(*columns))}
            for one in trainees:
                names = (one.first_name, one.last_name, one.email or None)
                held = dict(zip(("first_name", "last_name", "email"), names, strict=True))
                if one.id not in known:
                    book.execute(insert(STUDENT).values(id=one.id, **held))
                elif tuple(known[one.id][1:]) != names:
                    book.execute(update(STUDENT).where(STUDENT.c.id == one.id).values(held))
                self._students.add(one.id)

    @in_words()
    def marked(self) -> set[str]:
        """Return the trainees whose submission has been entered."""
        asked = select(SUBMISSION.c.student_id)
        with self._engine.connect() as book:
            of_unit = asked.where(SUBMISSION.c.assignment_id == self._frame.assignment)
            return set(book.scalars(of_unit))

    @in_words()
    def enter(
        self, trainee: str, found: Results, timestamp: datetime | None, *, known: bool = False
    ) -> list[Change | CostChange]:
        """Enter scores and comments of one submission, all or none; return what changed by it.

        `timestamp` is when it came, in UTC. Nothing counts as changed unless the submission was
        `known` before.
        """
        with self._engine.begin() as book:
            due = due_in(book, self.unit)
            rows = self._rows(book, trainee)
            before = rows.cost(due)
            rows.timestamp = timestamp or rows.timestamp
            notes = {note.name: note for note in rows.notes}
            changes: list[Change | CostChange] = [
                change
                for grade in rows.grades
                if (change := self._grade(book, grade, notes, found))
            ]
            for note in rows.notes:
                note.auto_comment = found.comments[note.name]
            due = self._settle(rows, due, settle_due(book, self.term, self.unit))
            write_rows(book, self._frame, rows)
        cost = CostChange(before, rows.cost(due))
        return [*changes, *([cost] if cost else [])] if known else []

    @in_words()
    def give(
        self,
        trainee: str,
        question: str,
        given: Given | None,
        comment: str | None = None,
        digest: str = "",
    ) -> float | None:
        """Enter a mark that a person gave for `question`, all or nothing; None takes it back.

        The comment stays if there is no new one. Returns the points there were before. Raises
        `CourseError` if the answer is another by now than the one of `digest`.
        """
        with self._engine.begin() as book:
            rows = self._rows(book, trainee)
            grade = next(one for one in rows.grades if one.name == question)
            if digest and grade.digest != digest:
                rule = f"answer of {trainee} must be the one that was read"
                raise CourseError(f"{rule}, got another attempt since; load the page again")
            before = grade.points
            grade.manual_score = None if given is None else given.points
            grade.needs_manual_grade = grade.points is None
            for said in rows.notes:
                if comment is not None and said.name in (question, f"{question}-answer"):
                    said.manual_comment = comment or None
            forget_given(book, grade.id)
            if given is not None:
                keep_given(book, grade.id, given)
            rows.penalty = self._taken(rows, due_in(book, self.unit))
            write_rows(book, self._frame, rows)
        return before

    @in_words()
    def settle_lateness(self, trainees: Collection[str]) -> dict[str, CostChange]:
        """Work out anew what lateness costs `trainees`; return by trainee what changed by it."""
        changes: dict[str, CostChange] = {}
        with self._engine.begin() as book:
            before = due_in(book, self.unit)
            held = [read_rows(book, self._frame, one) for one in sorted(trainees)]
            now = settle_due(book, self.term, self.unit)
            for rows in held:
                cost = rows.cost(before)
                due = self._settle(rows, before, now)
                changes[rows.trainee] = CostChange(cost, rows.cost(due))
                write_rows(book, self._frame, rows)
        return {trainee: change for trainee, change in changes.items() if change}

    def _rows(self, book: Connection, trainee: str) -> SubmissionRows:
        """Return the rows of a trainee's submission, new ones if there are none."""
        if trainee not in self._students and _is_unknown(book, trainee):
            book.execute(insert(STUDENT).values(id=trainee))
        return read_rows(book, self._frame, trainee)

    def _settle(
        self, rows: SubmissionRows, before: datetime | None, due: datetime | None
    ) -> datetime | None:
        """Note what more time one has now, and what lateness costs; return until when it is due."""
        if self.unit in self.term.due:
            rows.extension = extension(self.term, self.unit, rows.trainee)
        elif due is None and before is not None:
            rows.extension = None
        rows.penalty = self._taken(rows, due)
        return due

    def _grade(
        self, book: Connection, grade: GradeRow, notes: Mapping[str, NoteRow], found: Results
    ) -> Change | None:
        """Change one score; return what changed by it, if anything."""
        name, before = grade.name, grade.points
        note = notes.get(name) or notes.get(f"{name}-answer")
        taken = take_back(book, grade, note, grade.digest, found.texts[name])
        grade.digest, grade.auto_score = found.texts[name], found.scores[name]
        grade.needs_manual_grade = grade.manual_score is not None or grade.auto_score is None
        after = grade.points
        return Change(name, before, after, taken) if taken or before != after else None

    def _taken(self, rows: SubmissionRows, due: datetime | None) -> float | None:
        """Return what the rule on lateness takes from a late submission."""
        seconds = rows.late(due).total_seconds()
        return self._penalty(rows.trainee, rows.score, seconds) if seconds > 0 else None


def _is_unknown(book: Connection, trainee: str) -> bool:
    """Return whether the gradebook has nobody of that name."""
    return book.scalar(select(STUDENT.c.id).where(STUDENT.c.id == trainee)) is None


def _frame(book: Connection, unit: str) -> Frame:
    """Return where `unit` stands in the gradebook; raise `CourseError` if it does not."""
    asked = (
        select(NOTEBOOK.c.id, NOTEBOOK.c.assignment_id)
        .join(ASSIGNMENT, ASSIGNMENT.c.id == NOTEBOOK.c.assignment_id)
        .where(ASSIGNMENT.c.name == unit, NOTEBOOK.c.name == unit)
    )
    row = book.execute(asked).one_or_none()
    if row is None:
        raise CourseError(f"{unit} must be built before it is marked, got none in the gradebook")
    cells = book.execute(
        select(CELL.c.id, CELL.c.name, CELL.c.type)
        .where(CELL.c.notebook_id == row.id)
        .order_by(CELL.c.name)
    )
    return Frame(row.assignment_id, row.id, tuple((one.id, one.name, one.type) for one in cells))

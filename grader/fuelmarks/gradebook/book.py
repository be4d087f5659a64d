"""nbgrader's gradebook, opened once for one unit: what marking enters in it, trainee by trainee."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from types import TracebackType
from typing import Any, Self

from nbgrader.api import Assignment, MissingEntry, Student, SubmittedAssignment
from nbgrader.preprocessors import AssignLatePenalties
from nbgrader.utils import parse_utc
from sqlalchemy import select

from fuelmarks.course.course import Course, CourseError, Trainee
from fuelmarks.gradebook.given import Given, forget_given, keep_given
from fuelmarks.gradebook.hand_marks import TakenBack, add_tables, digest_of, take_back
from fuelmarks.gradebook.late_cost import CostChange, late_cost
from fuelmarks.gradebook.late_rule import note_due
from fuelmarks.gradebook.opening import in_words, open_gradebook
from fuelmarks.gradebook.results import Results
from fuelmarks.gradebook.settings import settings

__all__ = ["Change", "Ledger", "penalty_plugin"]


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
    """The gradebook of one course, for one unit: one connection, one transaction a trainee."""

    @in_words()
    def __init__(self, course: Course, unit: str) -> None:
        config = settings(course)
        self.unit, self.term = unit, course.term
        self._book = open_gradebook(course, config.CourseDirectory.get("course_id", ""))
        self._penalty_for = penalty_plugin(course).late_submission_penalty
        add_tables(self._book.engine)
        try:
            notebook = self._book.find_notebook(unit, unit)
        except MissingEntry as error:
            self.close()
            raise CourseError(f"{unit} must be built before it is marked, got {error}") from error
        self.cells = {cell.id: cell.name for cell in notebook._base_cells}

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
        self._book.close()

    @in_words()
    def enrol(self, trainees: Iterable[Trainee]) -> None:
        """Enter the class list, so that pages show names."""
        known = {student.id: student for student in self._book.students}
        for one in trainees:
            student = known.get(one.id) or Student(id=one.id)
            student.first_name, student.last_name = one.first_name, one.last_name
            student.email = one.email or None
            self._book.db.add(student)
        self._book.db.commit()

    @in_words()
    def marked(self) -> set[str]:
        """Return the trainees whose submission has been entered."""
        asked = (
            select(SubmittedAssignment.student_id)
            .join(Assignment, Assignment.id == SubmittedAssignment.assignment_id)
            .where(Assignment.name == self.unit)
        )
        with self._book.engine.connect() as connection:
            return set(connection.scalars(asked))

    @in_words()
    def enter(
        self, trainee: str, found: Results, timestamp: datetime | None, *, known: bool = False
    ) -> list[Change | CostChange]:
        """Enter scores and comments of one submission, all or none; return what changed by it.

        Nothing counts as changed unless the submission was `known` before.
        """
        try:
            changes = self._enter(trainee, found, timestamp)
        except BaseException:
            self._book.db.rollback()
            raise
        self._book.db.expire_all()
        self._book.db.expunge_all()
        return changes if known else []

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
        try:
            notebook = self._sheet(trainee)
            grade = next(one for one in notebook.grades if one.name == question)
            if digest and digest_of(self._book.db, grade.id) != digest:
                rule = f"answer of {trainee} must be the one that was read"
                raise CourseError(f"{rule}, got another attempt since; load the page again")
            before = _points(grade)
            grade.manual_score = None if given is None else given.points
            grade.needs_manual_grade = grade.manual_score is None and grade.auto_score is None
            for said in notebook.comments:
                if comment is not None and said.name in (question, f"{question}-answer"):
                    said.manual_comment = comment or None
            forget_given(self._book.db, grade.id)
            if given is not None:
                keep_given(self._book.db, grade.id, given)
            self._book.db.flush()
            notebook.late_submission_penalty = self._penalty(notebook.assignment, notebook)
            self._book.db.commit()
            return before
        except BaseException:
            self._book.db.rollback()
            raise

    def _sheet(self, trainee: str) -> Any:
        """Return the notebook of a trainee's submission, made if there is none."""
        self._book.update_or_create_student(trainee)
        with self._book.db.no_autoflush:
            submission = self._book.update_or_create_submission(self.unit, trainee)
        return next(one for one in submission.notebooks if one.name == self.unit)

    @in_words()
    def settle_lateness(self, trainees: Collection[str]) -> dict[str, CostChange]:
        """Work out anew what lateness costs `trainees`; return by trainee what changed by it."""
        changes: dict[str, CostChange] = {}
        for submission in self._book.assignment_submissions(self.unit):
            if submission.student.id in trainees:
                for notebook in submission.notebooks:
                    changes[submission.student.id] = self._settle(submission, notebook)
        self._book.db.commit()
        return {trainee: change for trainee, change in changes.items() if change}

    def _settle(self, submission: Any, notebook: Any) -> CostChange:
        """Note until when one submission was due and what its lateness costs."""
        before = late_cost(notebook)
        note_due(self.term, submission)
        self._book.db.flush()
        notebook.late_submission_penalty = self._penalty(submission, notebook)
        return CostChange(before, late_cost(notebook))

    def _enter(
        self, trainee: str, found: Results, timestamp: datetime | None
    ) -> list[Change | CostChange]:
        """Enter one submission in one transaction."""
        notebook = self._sheet(trainee)
        before = late_cost(notebook)
        if timestamp:
            notebook.assignment.timestamp = parse_utc(timestamp)
        notes = {self.cells[note.cell_id]: note for note in notebook.comments}
        changes: list[Change | CostChange] = [
            change
            for grade in notebook.grades
            if (change := self._grade(grade, self.cells[grade.cell_id], notes, found))
        ]
        for name, note in notes.items():
            note.auto_comment = found.comments[name]
        self._settle(notebook.assignment, notebook)
        cost = CostChange(before, late_cost(notebook))
        self._book.db.commit()
        return [*changes, cost] if cost else changes

    def _grade(
        self, grade: Any, name: str, notes: Mapping[str, Any], found: Results
    ) -> Change | None:
        """Enter one score; return what changed by it, if anything."""
        before = _points(grade)
        note = notes.get(name) or notes.get(f"{name}-answer")
        taken = take_back(self._book.db, grade, note, found.texts[name])
        grade.auto_score = found.scores[name]
        grade.needs_manual_grade = grade.manual_score is not None or grade.auto_score is None
        after = _points(grade)
        return Change(name, before, after, taken) if taken or before != after else None

    def _penalty(self, submission: Any, notebook: Any) -> float | None:
        """Return what the rule on lateness takes from a late submission."""
        if not submission.total_seconds_late > 0:
            return None
        self._book.db.refresh(notebook)
        penalty = self._penalty_for(
            submission.student.id, notebook.score, submission.total_seconds_late
        )
        return None if penalty is None else min(max(penalty, 0), notebook.score)


def penalty_plugin(course: Course) -> Any:
    """Return what works out the penalty of a late submission: nbgrader's plugin, as configured."""
    penalties = AssignLatePenalties(config=settings(course))
    penalties.init_plugin()
    return penalties.plugin_inst


def _points(grade: Any) -> float | None:
    """Return the points of a grade, None while it waits for a hand."""
    known = grade.manual_score if grade.manual_score is not None else grade.auto_score
    return None if known is None else float(known)

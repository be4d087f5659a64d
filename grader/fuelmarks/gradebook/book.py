"""nbgrader's gradebook, opened once: what marking reads from it and enters in it."""

from dataclasses import dataclass, field
from datetime import datetime
from types import TracebackType
from typing import Any, Self

from nbgrader.api import (
    Assignment,
    Base,
    Gradebook,
    MissingEntry,
    Notebook,
    SourceCell,
    Student,
    SubmittedAssignment,
)
from nbgrader.dbutil import ALEMBIC_DIR
from nbgrader.preprocessors import AssignLatePenalties
from sqlalchemy import create_engine, inspect, select, text

from fuelmarks.course.course import Course, CourseError, Trainee
from fuelmarks.gradebook.results import Results
from fuelmarks.gradebook.settings import settings

__all__ = ["Entered", "Ledger", "entered", "new_gradebook", "stored_sources"]


class Ledger:
    """The gradebook of one course, for one unit: one connection, one transaction a trainee."""

    def __init__(self, course: Course, unit: str) -> None:
        config = settings(course)
        self.unit = unit
        self._book = Gradebook(course.gradebook, config.CourseDirectory.get("course_id", ""))
        self._penalties = AssignLatePenalties(config=config)
        self._penalties.init_plugin()
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

    def enrol(self, trainees: tuple[Trainee, ...]) -> None:
        """Enter the class list, so that pages show names."""
        known = {student.id: student for student in self._book.students}
        for one in trainees:
            student = known.get(one.id) or Student(id=one.id)
            student.first_name, student.last_name = one.first_name, one.last_name
            student.email = one.email or None
            self._book.db.add(student)
        self._book.db.commit()

    def marked(self) -> set[str]:
        """Return the trainees whose submission has been entered."""
        with self._book.engine.connect() as connection:
            return set(connection.scalars(_submissions(self.unit)))

    def enter(self, trainee: str, found: Results, timestamp: datetime | None) -> None:
        """Enter the scores and comments of one submission, all of them or none."""
        self._book.update_or_create_student(trainee)
        when = {"timestamp": timestamp} if timestamp else {}
        with self._book.db.no_autoflush:
            submission = self._book.update_or_create_submission(self.unit, trainee, **when)
        notebook = next(one for one in submission.notebooks if one.name == self.unit)
        for grade in notebook.grades:
            grade.auto_score = found.scores[self.cells[grade.cell_id]]
            grade.needs_manual_grade = grade.manual_score is not None or grade.auto_score is None
        for comment in notebook.comments:
            comment.auto_comment = found.comments[self.cells[comment.cell_id]]
        self._book.db.flush()
        notebook.late_submission_penalty = self._penalty(submission, notebook)
        self._book.db.commit()
        self._book.db.expire_all()
        self._book.db.expunge_all()

    def _penalty(self, submission: Any, notebook: Any) -> float | None:
        """Return the penalty that nbgrader's plugin sets on a late submission."""
        if not submission.total_seconds_late > 0:
            return None
        self._book.db.refresh(notebook)
        penalty = self._penalties.plugin_inst.late_submission_penalty(
            submission.student.id, notebook.score, submission.total_seconds_late
        )
        return None if penalty is None else min(max(penalty, 0), notebook.score)


def new_gradebook(course: Course) -> None:
    """Make the tables of an empty gradebook, with the version that nbgrader itself would note."""
    from alembic.migration import MigrationContext  # noqa: PLC0415 - marking makes no tables
    from alembic.script import ScriptDirectory  # noqa: PLC0415

    engine = create_engine(course.gradebook)
    try:
        if inspect(engine).get_table_names():
            return
        version = ScriptDirectory(ALEMBIC_DIR).get_current_head()
        with engine.begin() as connection:
            Base.metadata.create_all(connection)
            MigrationContext.configure(connection)._ensure_version_table()
            connection.execute(text("INSERT INTO alembic_version VALUES (:v)"), {"v": version})
    finally:
        engine.dispose()


def stored_sources(course: Course, unit: str) -> dict[str, str]:
    """Return the text of the locked cells of `unit` as nbgrader keeps it, rubrics included."""
    engine = create_engine(course.gradebook)
    wanted = (
        select(SourceCell.name, SourceCell.source)
        .join(Notebook, Notebook.id == SourceCell.notebook_id)
        .join(Assignment, Assignment.id == Notebook.assignment_id)
        .where(Assignment.name == unit, Notebook.name == unit, SourceCell.locked)
    )
    try:
        with engine.connect() as connection:
            return {row.name: row.source for row in connection.execute(wanted)}
    finally:
        engine.dispose()


@dataclass
class Entered:
    """What the gradebook holds on one submission, by grade id."""

    points: dict[str, float | None] = field(default_factory=dict)
    by_hand: set[str] = field(default_factory=set)
    comments: dict[str, str] = field(default_factory=dict)
    penalty: float = 0.0


def entered(course: Course, unit: str) -> dict[str, Entered]:
    """Return what has been entered for `unit`, by trainee; points are None until marked by hand."""
    book = Gradebook(course.gradebook)
    found: dict[str, Entered] = {}
    try:
        for submission in book.notebook_submissions(unit, unit):
            one = found[submission.student.id] = Entered()
            one.penalty = submission.late_submission_penalty or 0.0
            for grade in submission.grades:
                known = grade.manual_score is not None or grade.auto_score is not None
                one.points[grade.name] = float(grade.score) if known else None
                if grade.manual_score is not None:
                    one.by_hand.add(grade.name)
            one.comments = {note.name: note.comment for note in submission.comments if note.comment}
    finally:
        book.close()
    return found


def _submissions(unit: str) -> Any:
    """Return the question for the trainees who have a submission of `unit`."""
    return (
        select(SubmittedAssignment.student_id)
        .join(Assignment, Assignment.id == SubmittedAssignment.assignment_id)
        .where(Assignment.name == unit)
    )

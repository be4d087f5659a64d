"""What nbgrader's gradebook holds on a unit: read for reports, marking and the table of returns."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from typing import Any

from sqlalchemy import create_engine, select

from fuelmarks.course.course import Course
from fuelmarks.gradebook.given import Given, given_to
from fuelmarks.gradebook.hand_marks import add_tables
from fuelmarks.gradebook.noted_due import due_in, is_ours
from fuelmarks.gradebook.opening import check_gradebook, in_words, open_gradebook
from fuelmarks.gradebook.penalty import Penalty, penalty_of
from fuelmarks.gradebook.tables import ASSIGNMENT, NOTEBOOK, SOURCE, SUBMISSION

__all__ = ["Entered", "entered", "noted_due_date", "stored_sources", "who_is_marked"]


@dataclass
class Entered:
    """What the gradebook holds on one submission, by grade id; no `late`: there is no due date.

    `given` says how a mark was given by a person, where it was on our page or on paper.
    """

    points: dict[str, float | None] = field(default_factory=dict)
    by_hand: set[str] = field(default_factory=set)
    given: Mapping[str, Given] = field(default_factory=dict)
    comments: dict[str, str] = field(default_factory=dict)
    penalty: float = 0.0
    handed_in: datetime | None = None
    late: timedelta | None = None


@in_words()
def entered(course: Course, unit: str) -> dict[str, Entered]:
    """Return what has been entered for `unit`, by trainee; points are None until marked by hand."""
    rule = penalty_of(course)
    book = open_gradebook(course)
    found: dict[str, Entered] = {}
    try:
        add_tables(book.engine)
        for sheet in book.notebook_submissions(unit, unit):
            one = found[sheet.student.id] = Entered()
            for grade in sheet.grades:
                known = grade.manual_score is not None or grade.auto_score is not None
                one.points[grade.name] = float(grade.score) if known else None
                if grade.manual_score is not None:
                    one.by_hand.add(grade.name)
            one.given = given_to(book.db, sheet.grades)
            one.comments = {note.name: note.comment for note in sheet.comments if note.comment}
            _time(one, sheet, rule)
    finally:
        book.close()
    return found


@in_words()
def who_is_marked(course: Course, unit: str) -> set[str]:
    """Return the trainees of whom something has been entered for `unit`."""
    if not check_gradebook(course):
        return set()
    engine = create_engine(course.gradebook)
    wanted = (
        select(SUBMISSION.c.student_id)
        .join(ASSIGNMENT, ASSIGNMENT.c.id == SUBMISSION.c.assignment_id)
        .where(ASSIGNMENT.c.name == unit)
    )
    try:
        with engine.connect() as connection:
            return set(connection.scalars(wanted))
    finally:
        engine.dispose()


@in_words()
def stored_sources(course: Course, unit: str) -> dict[str, str]:
    """Return the text of the locked cells of `unit` as nbgrader keeps it, rubrics included."""
    if not check_gradebook(course):
        return {}
    engine = create_engine(course.gradebook)
    wanted = (
        select(SOURCE.c.name, SOURCE.c.source)
        .join(NOTEBOOK, NOTEBOOK.c.id == SOURCE.c.notebook_id)
        .join(ASSIGNMENT, ASSIGNMENT.c.id == NOTEBOOK.c.assignment_id)
        .where(ASSIGNMENT.c.name == unit, NOTEBOOK.c.name == unit, SOURCE.c.locked)
    )
    try:
        with engine.connect() as connection:
            return {row.name: row.source for row in connection.execute(wanted)}
    finally:
        engine.dispose()


@in_words()
def noted_due_date(course: Course, unit: str) -> datetime | None:
    """Return the due date of `unit` that was entered with nbgrader, if one was.

    One that came from term.toml, and stands there no more, is none.
    """
    if not check_gradebook(course):
        return None
    engine = create_engine(course.gradebook)
    try:
        add_tables(engine)
        with engine.connect() as connection:
            when = due_in(connection, unit)
            when = None if is_ours(connection, unit, when) else when
    finally:
        engine.dispose()
    return when.replace(tzinfo=UTC) if when else None


def _time(one: Entered, sheet: Any, rule: Penalty) -> None:
    """Note when a submission came, how late that was, and what it costs by the points so far."""
    submission = sheet.assignment
    if submission.timestamp:
        one.handed_in = submission.timestamp.replace(tzinfo=UTC)
    if submission.duedate is None or one.handed_in is None:
        return
    seconds = submission.total_seconds_late
    one.late = timedelta(seconds=seconds)
    if seconds > 0:
        one.penalty = rule(sheet.student.id, sheet.score, seconds) or 0.0

"""What lateness costs, as term.toml says, for nbgrader's commands and for ours alike."""

import math
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from nbgrader.plugins import LateSubmissionPlugin
from sqlalchemy.orm import object_session

from fuelmarks.course.term import Term, read_term
from fuelmarks.gradebook.noted_due import forget, is_ours, note

__all__ = ["TermRule", "note_due"]

DAY = 86_400


class TermRule(LateSubmissionPlugin):  # type: ignore[misc]
    """The rule in term.toml; where there is none, nbgrader's own setting."""

    def late_submission_penalty(
        self, student_id: str, score: float, total_seconds_late: float
    ) -> float | None:
        """Return the points that a late submission loses of its `score`."""
        late = read_term(Path(self.config.CourseDirectory.root)).late
        if late.rule == "":
            own: float | None = super().late_submission_penalty(
                student_id, score, total_seconds_late
            )
            return own
        if late.rule == "shown":
            return None
        days = math.ceil(total_seconds_late / DAY)
        share = 1.0 if late.rule == "zero" else min(1.0, days * late.percent / 100)
        return score * share


def note_due(term: Term, submission: Any) -> None:
    """Enter the due date of term.toml, if it has one; a trainee's own is nbgrader's extension.

    One that was entered from there before and has been taken out since is taken out here too.
    """
    assignment, session = submission.assignment, object_session(submission)
    due = term.due.get(assignment.name)
    if due is None:
        _take_out(session, assignment)
        return
    assignment.duedate = _utc(due)
    note(session, assignment.name, assignment.duedate)
    own = term.due_for(assignment.name, submission.student.id)
    submission.extension = _utc(own) - assignment.duedate if own and own != due else None


def _take_out(session: Any, assignment: Any) -> None:
    """Take a date out that came from term.toml, for all; one set with nbgrader stays."""
    if is_ours(session, assignment.name, assignment.duedate):
        for each in assignment.submissions:
            each.extension = None
        assignment.duedate = None
        forget(session, assignment.name)


def _utc(when: datetime) -> datetime:
    """Return a moment as nbgrader keeps it: in UTC, without saying so."""
    return when.astimezone(UTC).replace(tzinfo=None)

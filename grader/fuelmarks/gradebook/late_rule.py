"""What lateness costs, as term.toml says, for nbgrader's commands; else as nbgrader is told."""

from pathlib import Path

from nbgrader.plugins import LateSubmissionPlugin

from fuelmarks.course.term import read_term
from fuelmarks.gradebook.penalty import term_penalty

__all__ = ["TermRule"]


class TermRule(LateSubmissionPlugin):  # type: ignore[misc]
    """The rule in term.toml; where there is none, nbgrader's own setting."""

    def late_submission_penalty(
        self, student_id: str, score: float, total_seconds_late: float
    ) -> float | None:
        """Return the points that a late submission loses of its `score`."""
        late = read_term(Path(self.config.CourseDirectory.root)).late
        if late.rule:
            return term_penalty(late, score, total_seconds_late)
        own: float | None = super().late_submission_penalty(student_id, score, total_seconds_late)
        return own

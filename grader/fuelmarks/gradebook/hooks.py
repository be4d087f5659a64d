"""The preprocessors that nbgrader_config.py names, so that nbgrader's commands mark our way."""

import atexit
import math
from contextlib import suppress
from functools import cache
from pathlib import Path
from typing import Any, cast

from nbgrader.api import MissingEntry
from nbgrader.preprocessors import ClearSolutions, NbGraderPreprocessor, SaveAutoGrades
from traitlets import Bool, Float, TraitError, validate

from fuelmarks.course.course import Course
from fuelmarks.course.notebook import NotebookNode
from fuelmarks.course.personal import personal, release_notebook, sheet_of, with_rubrics
from fuelmarks.gradebook.claim import claim_in
from fuelmarks.gradebook.entered import stored_sources
from fuelmarks.gradebook.hand_marks import add_tables, digest_of, keep_digests, take_back
from fuelmarks.gradebook.identity import Numbers, misfit
from fuelmarks.gradebook.noted_due import extension, settle_due
from fuelmarks.gradebook.results import marks_of, results
from fuelmarks.gradebook.submission import SubmissionError, put_in_order
from fuelmarks.runner import Limits, Runner, run_notebook

__all__ = ["ClearAnswers", "PutInOrder", "RunApart", "SaveMarks"]


class ClearAnswers(ClearSolutions):  # type: ignore[misc]
    """Take the model answers out and leave no empty line where they were."""

    def preprocess_cell(
        self, cell: NotebookNode, resources: dict[str, Any], cell_index: int
    ) -> tuple[NotebookNode, dict[str, Any]]:
        """Clear one cell."""
        cell, resources = super().preprocess_cell(cell, resources, cell_index)
        cell.source = cell.source.rstrip("\n")
        return cell, resources


class PutInOrder(NbGraderPreprocessor):  # type: ignore[misc]
    """Set copied, deleted, moved and edited cells right, with the trainee's own numbers."""

    def preprocess(
        self, nb: NotebookNode, resources: dict[str, Any]
    ) -> tuple[NotebookNode, dict[str, Any]]:
        """Replace the notebook by the one to run; refuse what is not this trainee's work."""
        course, unit, trainee = _place(resources)
        everyone = [one.id for one in course.trainees()]
        numbers = Numbers(course, course.questions(unit))
        if why := misfit(numbers, claim_in(nb.cells), trainee, everyone):
            raise SubmissionError(f"{unit} of {trainee} is passed over: it {why.words}")
        return put_in_order(nb.cells, frame_for(course, unit, trainee)), resources


class RunApart(NbGraderPreprocessor):  # type: ignore[misc]
    """Run the notebook apart from everything, in place of nbgrader's own execution."""

    trust_class = Bool(
        False, help="Run without a sandbox; only for a class that may use this very computer."
    ).tag(config=True)
    cell_seconds = Float(
        Limits.cell_seconds, help="How long one cell may run, in seconds; then it is stopped."
    ).tag(config=True)
    notebook_seconds = Float(
        Limits.notebook_seconds, help="How long all cells of a notebook may run, in seconds."
    ).tag(config=True)

    @validate("cell_seconds", "notebook_seconds")
    def _positive(self, proposal: Any) -> float:
        """Refuse a limit that would stop everything or nothing."""
        seconds: float = proposal["value"]
        if not 0 < seconds < math.inf:
            raise TraitError(
                f"RunApart.{proposal['trait'].name} must be a positive number of seconds, "
                f"got {seconds:g}"
            )
        return seconds

    def preprocess(
        self, nb: NotebookNode, resources: dict[str, Any]
    ) -> tuple[NotebookNode, dict[str, Any]]:
        """Fill the outputs."""
        limits = Limits(cell_seconds=self.cell_seconds, notebook_seconds=self.notebook_seconds)
        return run_notebook(_runner(self.trust_class, Path.cwd()), nb, limits), resources


class SaveMarks(SaveAutoGrades):  # type: ignore[misc]
    """Enter the marks for what the notebook handed over; the rest as nbgrader does."""

    def preprocess(
        self, nb: NotebookNode, resources: dict[str, Any]
    ) -> tuple[NotebookNode, dict[str, Any]]:
        """Mark, then go through the cells."""
        course, unit, trainee = _place(resources)
        exercise_set = course.questions(unit)
        marks = marks_of(nb, exercise_set, sheet_of(course, exercise_set, trainee))
        self.results, self.term = results(nb, marks), course.term
        return cast(tuple[NotebookNode, dict[str, Any]], super().preprocess(nb, resources))

    def _add_score(self, cell: NotebookNode, resources: dict[str, Any]) -> None:
        """Enter the score of one cell."""
        name = cell.metadata.nbgrader["grade_id"]
        grade = self.gradebook.find_grade(
            name, self.notebook_id, self.assignment_id, self.student_id
        )
        digest = self.results.texts[name]
        self._settle_due(grade.assignment)
        before = digest_of(self.gradebook.db, grade.id)
        take_back(self.gradebook.db, grade, self._note_on(cell), before, digest)
        keep_digests(self.gradebook.db, {grade.id: digest})
        grade.auto_score = self.results.scores[name]
        grade.needs_manual_grade = grade.manual_score is not None or grade.auto_score is None
        self.gradebook.db.commit()

    def _settle_due(self, submission: Any) -> None:
        """Enter the due date of term.toml, and more time that this trainee has."""
        book, unit = self.gradebook.db, self.assignment_id
        add_tables(self.gradebook.engine)
        settle_due(book, self.term, unit)
        book.expire_all()
        if unit in self.term.due:
            submission.extension = extension(self.term, unit, self.student_id)

    def _note_on(self, cell: NotebookNode) -> Any:
        """Return the comment on the answer that a graded `cell` stands for."""
        name = cell.metadata.nbgrader["grade_id"]
        place = (self.notebook_id, self.assignment_id, self.student_id)
        for note in (name, f"{name}-answer"):
            with suppress(MissingEntry):
                return self.gradebook.find_comment(note, *place)
        return None

    def _add_comment(self, cell: NotebookNode, resources: dict[str, Any]) -> None:
        """Enter the comment on one cell."""
        name = cell.metadata.nbgrader["grade_id"]
        comment = self.gradebook.find_comment(
            name, self.notebook_id, self.assignment_id, self.student_id
        )
        comment.auto_comment = self.results.comments[name]
        self.gradebook.db.commit()


def frame_for(course: Course, unit: str, trainee: str) -> NotebookNode:
    """Return what `trainee` was handed out, with the rubrics for whoever marks by hand."""
    exercise_set = course.questions(unit)
    release = with_rubrics(release_notebook(course, unit), stored_sources(course, unit))
    return personal(release, exercise_set, sheet_of(course, exercise_set, trainee), trainee)


def _place(resources: dict[str, Any]) -> tuple[Course, str, str]:
    """Return course, unit and trainee; nbgrader works in the course folder while it converts."""
    names = resources["nbgrader"]
    return Course.at(Path.cwd()), names["assignment"], names["student"]


@cache
def _runner(trust: bool, root: Path) -> Runner:
    """Return the one runner of this process for a course, started at its first use."""
    runner = Runner(trust=trust, hidden=[root]).__enter__()
    atexit.register(runner.close)
    return runner

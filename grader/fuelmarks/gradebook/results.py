"""From an executed notebook to what the gradebook keeps: a score and a comment for each cell."""

import hashlib
import json
from dataclasses import dataclass, field

from fuelcircuits.answer_sheet.sheet import MIME

from fuelmarks.course.notebook import NotebookNode, grade_id
from fuelmarks.gradebook.evidence import evidence
from fuelmarks.gradebook.nbgraders import (
    compute_checksum,
    determine_grade,
    is_grade,
    is_solution,
    is_task,
)
from fuelmarks.gradebook.written_answer import plain
from fuelmarks.marking.marking import Marks, mark_sheet
from fuelmarks.questions import ExerciseSet, Sheet

__all__ = ["NO_RESPONSE", "Results", "marks_of", "results"]

NO_RESPONSE = "No response."
"""nbgrader's own comment on an answer that was left as it was handed out."""


@dataclass(frozen=True)
class Results:
    """Scores by grade id (None: to be marked by hand), comments, digests of what was marked."""

    scores: dict[str, float | None] = field(default_factory=dict)
    comments: dict[str, str | None] = field(default_factory=dict)
    texts: dict[str, str] = field(default_factory=dict)


def marks_of(notebook: NotebookNode, exercise_set: ExerciseSet, sheet: Sheet) -> Marks:
    """Return the marks for the answers that a run `notebook` handed over."""
    records, faults = evidence(notebook, exercise_set)
    return mark_sheet(exercise_set, sheet, records, faults)


def results(notebook: NotebookNode, marks: Marks) -> Results:
    """Return what to enter: `marks` where there are any, else what nbgrader itself would."""
    number = marks.unit[:2]
    own = {f"{number}-{one.exercise}": one for one in marks.marks}
    found = Results()
    cells = {grade_id(cell): cell for cell in notebook.cells}
    for name, cell in cells.items():
        if is_grade(cell):
            found.scores[name] = own[name].points if name in own else _of_nbgrader(cell)
            found.texts[name] = _digest(cells.get(f"{name}-answer", cell), cell)
        if is_solution(cell) or is_task(cell):
            one = own.get(name.removesuffix("-answer"))
            found.comments[name] = one.comment if one else _no_response(cell)
    return found


def _of_nbgrader(cell: NotebookNode) -> float | None:
    """Return the score that nbgrader gives; what is worth nothing waits for no hand."""
    score: float | None = determine_grade(cell)[0]
    return score if cell.metadata.nbgrader.points else 0.0


def _digest(answer: NotebookNode, cell: NotebookNode) -> str:
    """Return the fingerprint of an answer: its text, its pictures, and what it handed over.

    A question that counts no more has another one, so that points given by hand are taken back.
    """
    shown = [output.get("data", {}).get(MIME) for output in cell.get("outputs", [])]
    said = [plain(answer.source), answer.get("attachments"), [one for one in shown if one]]
    worth = "" if cell.metadata.nbgrader.points else "void"
    return hashlib.sha256(f"{json.dumps(said, sort_keys=True)}{worth}".encode()).hexdigest()


def _no_response(cell: NotebookNode) -> str | None:
    """Return the comment on an answer without a mark: that it is none, or nothing."""
    same = cell.metadata.nbgrader.get("checksum") == compute_checksum(cell)
    return NO_RESPONSE if same and not is_task(cell) else None

"""A class's results in one unit, read back from the gradebook and the marked notebooks.

Points are the gradebook's, so what was changed or marked by hand counts. Verdicts are worked out
again from the values the notebooks handed over: the same answers give the same marks for ever.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from fuelcircuits.answer_sheet.record import DRIVE
from fuelcircuits.quantities.trade_units import labelled

from fuelmarks.book.came import came
from fuelmarks.book.record import NOTHING, REFUSED, ClassRecord, Entry, Question, Row
from fuelmarks.classroom.refused import refusals
from fuelmarks.course.cells import ANSWER_HERE
from fuelmarks.course.course import Course, CourseError, Trainee
from fuelmarks.course.foretold import asked_in, foretold_in
from fuelmarks.course.notebook import NotebookNode, grade_id, read
from fuelmarks.course.personal import release_notebook
from fuelmarks.gradebook.claim import claim_in
from fuelmarks.gradebook.entered import Entered, entered
from fuelmarks.gradebook.evidence import evidence
from fuelmarks.gradebook.identity import Numbers
from fuelmarks.gradebook.pictures import Pictures, pictures_in
from fuelmarks.gradebook.results import NO_RESPONSE
from fuelmarks.gradebook.submission import SubmissionError, read_submission
from fuelmarks.gradebook.written_page import written_html
from fuelmarks.marking.marking import Mark, Marks, mark_sheet
from fuelmarks.marking.worked import worked
from fuelmarks.questions import ExerciseSet, Sheet

__all__ = ["class_record"]


def class_record(course: Course, unit: str) -> ClassRecord:
    """Return the results of the class in `unit`."""
    course.text(unit)
    exercise_set = course.questions(unit)
    questions = tuple(_questions(course, exercise_set))
    known, numbers = entered(course, unit), Numbers(course, exercise_set)
    entries = tuple(
        _entry(course, numbers, questions, trainee, known.get(trainee.id))
        for trainee in course.trainees()
    )
    asked = tuple(asked_in(course, unit))
    return ClassRecord(unit, exercise_set.title, exercise_set, questions, entries, asked)


def _questions(course: Course, exercise_set: ExerciseSet) -> list[Question]:
    """Return the graded questions in the order of the notebook."""
    outcomes = {exercise.id: exercise.outcomes for exercise in exercise_set}
    found: list[Question] = []
    for cell in release_notebook(course, exercise_set.unit).cells:
        marks = cell.metadata.get("nbgrader", {})
        if marks.get("grade"):
            name = grade_id(cell)[3:]
            codes, by_hand = outcomes.get(name, ()), name not in outcomes
            found.append(Question(len(found) + 1, name, marks["points"], codes, by_hand))
    return found


def _entry(
    course: Course,
    numbers: Numbers,
    questions: tuple[Question, ...],
    trainee: Trainee,
    book: Entered | None,
) -> Entry:
    """Return the results of one trainee."""
    exercise_set = numbers.exercise_set
    unit = exercise_set.unit
    path = course.notebook("autograded", unit, trainee.id)
    if book is not None and not path.is_file() and _on_paper(book):
        rows = tuple(_paper_row(book, unit, one) for one in questions)
        return Entry(trainee, rows, on_paper=True)
    if book is None or not path.is_file():
        reason = _why_not(course, unit, trainee.id)
        return Entry(trainee, reason=reason, came=came(course, unit, trainee.id))
    marked = read(path)
    _check_key(numbers, marked, trainee.id)
    cells = {grade_id(cell): cell for cell in marked.cells}
    shows = unit in course.term.worked
    desk = _Desk(exercise_set, numbers.sheet(trainee.id), book, cells, path.parent, shows)
    records, faults = evidence(marked, exercise_set)
    marks = {one.exercise: one for one in desk.marks(records, faults).marks}
    rows = tuple(
        desk.hand_row(question)
        if question.by_hand
        else desk.row(question, marks[question.id], _said(records.get(question.id)))
        for question in questions
    )
    when = came(course, unit, trainee.id, book, marked)
    said = foretold_in(marked.cells)
    return Entry(trainee, rows, penalty=book.penalty, came=when, foretold=said)


def _check_key(numbers: Numbers, marked: NotebookNode, trainee: str) -> None:
    """Raise `CourseError` if a marked notebook holds other numbers than the term's key draws."""
    if not numbers.fit(claim_in(marked.cells), trainee).belongs:
        rule = f"numbers of {trainee} in {numbers.exercise_set.unit} must be as when it was marked"
        raise CourseError(
            f"{rule}, got others; put the key in term.toml back, or mark again if the unit changed"
        )


@dataclass(frozen=True)
class _Desk:
    """What one trainee's rows are made from; `shows` lets the worked answers be shown."""

    exercise_set: ExerciseSet
    sheet: Sheet
    book: Entered
    cells: Mapping[str, NotebookNode]
    folder: Path
    shows: bool

    def marks(self, records: Mapping[str, Any], faults: Mapping[str, str]) -> Marks:
        """Return the marks, worked out again."""
        return mark_sheet(self.exercise_set, self.sheet, records, faults)

    def row(self, question: Question, mark: Mark, said: str) -> Row:
        """Return the result in a question that was marked by machine."""
        name = f"{self.exercise_set.unit[:2]}-{question.id}"
        exercise = self.exercise_set[question.id]
        given = self.book.given.get(name)
        return Row(
            question=question,
            points=self.book.points.get(name),
            verdict="on paper" if given and given.way == "paper" else mark.verdict,
            comment=self.book.comments.get(f"{name}-answer", mark.comment),
            handed_over=said,
            changed=name in self.book.by_hand,
            ask=self.sheet.ask(exercise.ask),
            given=given,
            worked=tuple(worked(exercise, self.sheet)) if self.shows else (),
            expected=self.sheet.answers[exercise.id] if exercise.form == "value" else None,
        )

    def hand_row(self, question: Question) -> Row:
        """Return the result in a question that is marked by hand."""
        name = f"{self.exercise_set.unit[:2]}-{question.id}"
        points, given = self.book.points.get(name), self.book.given.get(name)
        by_hand = "marked by hand" if name in self.book.by_hand else "blank"
        verdict = "to be marked" if points is None else by_hand
        verdict = verdict if question.out_of else "void"
        comment = self.book.comments.get(name, "")
        return Row(
            question=question,
            points=points,
            verdict="on paper" if given and given.way == "paper" else verdict,
            comment="" if (verdict, comment) == ("blank", NO_RESPONSE) else comment,
            written=self._written(name),
            given=given,
        )

    def _written(self, name: str) -> str:
        """Return what was written as clean HTML, nothing if it was left empty."""
        cell = self.cells.get(name)
        if cell is None or cell.source.strip() in ("", ANSWER_HERE):
            return ""
        pictures = Pictures(pictures_in(cell.get("attachments")), self.folder)
        return written_html(cell.source, pictures)


def _on_paper(book: Entered) -> bool:
    """Return whether any mark is for work on paper."""
    return any(one.way == "paper" for one in book.given.values())


def _paper_row(book: Entered, unit: str, question: Question) -> Row:
    """Return the result of somebody who has worked on paper alone."""
    name = f"{unit[:2]}-{question.id}"
    given = book.given.get(name)
    verdict = "on paper" if given else "to be marked"
    comment = book.comments.get(name) or book.comments.get(f"{name}-answer", "")
    return Row(question, book.points.get(name), verdict, comment, given=given)


def _said(record: Any) -> str:
    """Return what a record hands over, as one would say it."""
    if not record:
        return ""
    if record["magnitude"] is None:
        text = "a drive" if record["text"].startswith(DRIVE) else f"“{record['text']}”"
        return text if record["kind"] == "text" else ""
    return labelled(f"{record['magnitude']:.4g}", record["units"])


def _why_not(course: Course, unit: str, trainee: str) -> str:
    """Return why there are no results."""
    path = course.notebook("submitted", unit, trainee)
    if not path.exists():
        refused = refusals(course, unit, trainee)
        return f"{REFUSED}{refused[-1].why}" if refused else NOTHING
    try:
        read_submission(path)
    except SubmissionError as error:
        return str(error)
    return "not marked yet"

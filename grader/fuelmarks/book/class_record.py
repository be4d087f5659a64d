"""A class's results in one unit, read back from the gradebook and the marked notebooks.

Points are the gradebook's, so what was changed or marked by hand counts. Verdicts are worked out
again from the values the notebooks handed over: the same answers give the same marks for ever.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from fuelcircuits.quantities.trade_units import labelled

from fuelmarks.book.came import Came, came
from fuelmarks.course.course import Course, CourseError, Trainee
from fuelmarks.course.notebook import NotebookNode, grade_id, read
from fuelmarks.course.personal import release_notebook
from fuelmarks.gradebook.claim import claim_in
from fuelmarks.gradebook.entered import Entered, entered
from fuelmarks.gradebook.evidence import evidence
from fuelmarks.gradebook.identity import Numbers
from fuelmarks.gradebook.submission import SubmissionError, read_submission
from fuelmarks.marking.marking import Mark, Marks, mark_sheet
from fuelmarks.questions import ExerciseSet, Sheet

__all__ = ["ClassRecord", "Entry", "Question", "Row", "class_record"]


@dataclass(frozen=True)
class Question:
    """One graded question of a unit; `by_hand` if no machine marks it."""

    number: int
    id: str
    out_of: float
    outcomes: tuple[str, ...] = ()
    by_hand: bool = False

    @property
    def title(self) -> str:
        """Return the name as words."""
        return self.id.replace("-", " ").capitalize()


@dataclass(frozen=True)
class Row:
    """One trainee's result in one question; no points: still to be marked by hand."""

    question: Question
    points: float | None
    verdict: str
    comment: str = ""
    handed_over: str = ""
    changed: bool = False
    ask: str = ""


@dataclass(frozen=True)
class Entry:
    """One trainee's results; no rows: nothing was handed in, or nothing could be read.

    `came` says when, and whether something newer still waits to be marked.
    """

    trainee: Trainee
    rows: tuple[Row, ...] = ()
    reason: str = ""
    penalty: float = 0.0
    came: Came = field(default_factory=Came)

    @property
    def points(self) -> float:
        """Return the points so far."""
        return max(0.0, sum(row.points or 0.0 for row in self.rows) - self.penalty)

    @property
    def waits(self) -> bool:
        """Say whether a question still waits to be marked by hand."""
        return any(row.points is None for row in self.rows)

    def row(self, question: Question) -> Row | None:
        """Return the result in `question`, if there is any."""
        return next((row for row in self.rows if row.question == question), None)


@dataclass(frozen=True)
class ClassRecord:
    """The results of a class in one unit."""

    unit: str
    title: str
    exercise_set: ExerciseSet
    questions: tuple[Question, ...]
    entries: tuple[Entry, ...]

    @property
    def out_of(self) -> float:
        """Return the points that could be earned."""
        return sum(question.out_of for question in self.questions)

    @property
    def marked(self) -> tuple[Entry, ...]:
        """Return the entries that hold results."""
        return tuple(entry for entry in self.entries if entry.rows)


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
    return ClassRecord(unit, exercise_set.title, exercise_set, questions, entries)


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
    if book is None or not path.is_file():
        reason = _why_not(course, unit, trainee.id)
        return Entry(trainee, reason=reason, came=came(course, unit, trainee.id))
    marked = read(path)
    _check_key(numbers, marked, trainee.id)
    desk = _Desk(exercise_set, numbers.sheet(trainee.id), book)
    records, faults = evidence(marked, exercise_set)
    marks = {one.exercise: one for one in desk.marks(records, faults).marks}
    rows = tuple(
        desk.hand_row(question)
        if question.by_hand
        else desk.row(question, marks[question.id], _said(records.get(question.id)))
        for question in questions
    )
    when = came(course, unit, trainee.id, book, marked)
    return Entry(trainee, rows, penalty=book.penalty, came=when)


def _check_key(numbers: Numbers, marked: NotebookNode, trainee: str) -> None:
    """Raise `CourseError` if a marked notebook holds other numbers than the term's key draws."""
    if not numbers.fit(claim_in(marked.cells), trainee).belongs:
        rule = f"numbers of {trainee} in {numbers.exercise_set.unit} must be as when it was marked"
        raise CourseError(
            f"{rule}, got others; put the key in term.toml back, or mark again if the unit changed"
        )


@dataclass(frozen=True)
class _Desk:
    """What one trainee's rows are made from."""

    exercise_set: ExerciseSet
    sheet: Sheet
    book: Entered

    def marks(self, records: Mapping[str, Any], faults: Mapping[str, str]) -> Marks:
        """Return the marks, worked out again."""
        return mark_sheet(self.exercise_set, self.sheet, records, faults)

    def row(self, question: Question, mark: Mark, said: str) -> Row:
        """Return the result in a question that was marked by machine."""
        name = f"{self.exercise_set.unit[:2]}-{question.id}"
        exercise = self.exercise_set[question.id]
        return Row(
            question=question,
            points=self.book.points.get(name),
            verdict=mark.verdict,
            comment=self.book.comments.get(f"{name}-answer", mark.comment),
            handed_over=said,
            changed=name in self.book.by_hand,
            ask=self.sheet.ask(exercise.ask),
        )

    def hand_row(self, question: Question) -> Row:
        """Return the result in a question that is marked by hand."""
        name = f"{self.exercise_set.unit[:2]}-{question.id}"
        points = self.book.points.get(name)
        verdict = "to be marked" if points is None else "marked by hand"
        return Row(question, points, verdict, self.book.comments.get(name, ""))


def _said(record: Any) -> str:
    """Return what a record hands over, as one would say it."""
    if not record:
        return ""
    if record["magnitude"] is None:
        return f"“{record['text']}”" if record["kind"] == "text" else ""
    return labelled(f"{record['magnitude']:.4g}", record["units"])


def _why_not(course: Course, unit: str, trainee: str) -> str:
    """Return why there are no results."""
    path = course.notebook("submitted", unit, trainee)
    if not path.exists():
        return "nothing handed in"
    try:
        read_submission(path)
    except SubmissionError as error:
        return str(error)
    return "not marked yet"

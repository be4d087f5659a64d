"""Marks for work on paper, typed in question by question; the book shows that they are such.

All that is typed is checked before any of it is entered.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from fuelmarks.course.at_work import at_work
from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.notebook import grade_id
from fuelmarks.course.personal import release_notebook
from fuelmarks.course.spreadsheet import read_table
from fuelmarks.gradebook.book import Ledger
from fuelmarks.gradebook.given import Given
from fuelmarks.gradebook.standing import standings

__all__ = ["PaperMark", "enter_paper_marks", "marks_in_words", "marks_on_list"]

BACK = "-"
"""Typed in place of points, it takes a mark from paper back."""


@dataclass(frozen=True)
class PaperMark:
    """One mark typed in: no points take it back; `before` is what there was."""

    trainee: str
    question: str
    points: float | None
    out_of: float
    before: float | None = None

    @property
    def words(self) -> str:
        """Return what changed, as a sentence."""
        was = "nothing" if self.before is None else f"{self.before:g}"
        if self.points is None:
            return f"{self.trainee} {self.question}: {was} on paper is taken back"
        return f"{self.trainee} {self.question}: {self.points:g} of {self.out_of:g}, before {was}"


@dataclass(frozen=True)
class _Known:
    """Who is in the class, and what each graded question of a unit is worth."""

    trainees: frozenset[str]
    out_of: Mapping[str, float]

    @classmethod
    def at(cls, course: Course, unit: str) -> "_Known":
        """Return what is known of `unit`."""
        course.text(unit)
        graded = {
            grade_id(cell)[3:]: float(cell.metadata.nbgrader.points)
            for cell in release_notebook(course, unit).cells
            if cell.metadata.get("nbgrader", {}).get("grade")
        }
        return cls(frozenset(one.id for one in course.trainees()), graded)

    def mark(self, trainee: str, name: str, points: str) -> PaperMark:
        """Return one mark, everything about it checked."""
        if trainee not in self.trainees:
            raise CourseError(f"trainee must be in class.csv, got {trainee!r}")
        question = "-".join(name.strip().lower().split())
        if question not in self.out_of:
            raise CourseError(f"question must be one of {', '.join(self.out_of)}, got {name!r}")
        out_of = self.out_of[question]
        if points.strip() == BACK:
            return PaperMark(trainee, question, None, out_of)
        try:
            number = float(points.strip().replace(",", "."))
        except ValueError:
            number = -1.0
        if not 0 <= number <= out_of:
            rule = f"points of {trainee} for {question} must be 0 to {out_of:g}"
            raise CourseError(f"{rule}, got {points!r}")
        return PaperMark(trainee, question, number, out_of)


def marks_in_words(
    course: Course, unit: str, trainee: str, words: Sequence[str]
) -> list[PaperMark]:
    """Return the marks in `words`, each like ``seat-area=2``.

    Raises `CourseError` if one of them is none, or stands there twice.
    """
    parts = [word.partition("=") for word in words]
    if loose := [name for name, sign, _ in parts if not sign]:
        raise CourseError(f"a mark must be like QUESTION=POINTS, got {loose[0]!r}")
    known = _Known.at(course, unit)
    found: list[PaperMark] = []
    for name, _, points in parts:
        found.append(_once(found, known.mark(trainee, name, points)))
    return found


def marks_on_list(course: Course, unit: str, path: Path) -> list[PaperMark]:
    """Return the marks in a table: a column id, and one with the name of each question.

    Empty cells are passed over. Raises `CourseError` that names file, line, rule and value.
    """
    table, known = read_table(path), _Known.at(course, unit)
    head = [heading.lower() for heading in table.rows[0][1]] if table.rows else []
    if "id" not in head:
        rule = f"the headings must be id, {', '.join(known.out_of)}"
        raise table.refuse(1, rule, ", ".join(head))
    if head.count("id") > 1:
        raise table.refuse(1, "one column alone must hold the id", ", ".join(head))
    found: list[PaperMark] = []
    for line, row in table.body():
        try:
            for one in _in_row(known, head, row):
                found.append(_once(found, one))
        except CourseError as error:
            raise CourseError(f"{path}, line {line}: {error}") from None
    return found


def _in_row(known: _Known, head: Sequence[str], row: Sequence[str]) -> Iterator[PaperMark]:
    """Yield the marks in one row of a table."""
    place = head.index("id")
    trainee = row[place] if place < len(row) else ""
    for name, points in zip(head, row, strict=False):
        if name not in ("", "id") and points:
            yield known.mark(trainee, name, points)


def _once(before: Sequence[PaperMark], one: PaperMark) -> PaperMark:
    """Return a mark; raise `CourseError` if it was typed in before, for one of them is wrong."""
    if any((one.trainee, one.question) == (other.trainee, other.question) for other in before):
        rule = "a mark must be typed in once"
        raise CourseError(f"{rule}, got {one.question} of {one.trainee} again")
    return one


def enter_paper_marks(
    course: Course, unit: str, marks: Sequence[PaperMark], when: datetime
) -> Iterator[PaperMark]:
    """Enter `marks` as given on paper at `when`; yield each with what there was before.

    Raises `CourseError` if one is to be taken back that is not from paper.
    """
    with at_work(course.root, f"typing in marks of {unit}"), Ledger(course, unit) as ledger:
        ledger.enrol(course.trainees())
        for one in marks:
            if one.points is None:
                _check_from_paper(course, unit, one)
        for one in marks:
            given = None if one.points is None else Given("paper", one.points, when)
            before = ledger.give(one.trainee, f"{unit[:2]}-{one.question}", given)
            yield PaperMark(one.trainee, one.question, one.points, one.out_of, before)


def _check_from_paper(course: Course, unit: str, one: PaperMark) -> None:
    """Raise `CourseError` if the mark that is held was not given on paper."""
    held = standings(course, unit, f"{unit[:2]}-{one.question}").get(one.trainee)
    if held is None or held.given is None or held.given.way != "paper":
        rule = "a mark that is taken back must be one from paper"
        raise CourseError(f"{rule}, got none of {one.trainee} for {one.question}")

"""What a class has done in one unit: questions, rows, entries, and the record of them all."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from fuelmarks.book.came import Came
from fuelmarks.course.course import Trainee
from fuelmarks.course.foretold import Asked, Foretold
from fuelmarks.formula.worked import Line
from fuelmarks.gradebook.given import Given
from fuelmarks.questions import ExerciseSet

__all__ = ["NOTHING", "REFUSED", "ClassRecord", "Entry", "Question", "Row"]

NOTHING = "nothing handed in"
REFUSED = "refused: "
"""How a reason begins where something came and could not be kept."""


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
    """One trainee's result in one question; no points: still to be marked by hand.

    `written` is a written answer as clean HTML; `given` says how a person marked it; `worked` are
    the steps to the right answer, if the term lets them be shown; `expected` is the right number
    [SI], for comparing answers and for no page; `picture` is the question's drawing, an HTML image.
    """

    question: Question
    points: float | None
    verdict: str
    comment: str = ""
    handed_over: str = ""
    changed: bool = False
    ask: str = ""
    written: str = ""
    given: Given | None = None
    worked: tuple[Line, ...] = ()
    expected: float | None = None
    picture: str = ""

    @property
    def on_paper(self) -> bool:
        """Say whether the mark is for work on paper."""
        return self.given is not None and self.given.way == "paper"


@dataclass(frozen=True)
class Entry:
    """One trainee's results; no rows: nothing was handed in, or nothing could be read.

    `came` says when, and whether something newer still waits to be marked; `foretold` are the
    predictions in the notebook, by name; `on_paper` says that there is no notebook.
    """

    trainee: Trainee
    rows: tuple[Row, ...] = ()
    reason: str = ""
    penalty: float = 0.0
    came: Came = field(default_factory=Came)
    foretold: Mapping[str, Foretold] = field(default_factory=dict)
    on_paper: bool = False

    @property
    def points(self) -> float:
        """Return the points so far."""
        return max(0.0, sum(row.points or 0.0 for row in self.rows) - self.penalty)

    @property
    def waits(self) -> bool:
        """Say whether a question still waits to be marked by hand."""
        return any(row.points is None for row in self.rows)

    @property
    def out_of(self) -> float:
        """Return the points that could be earned where anything is marked."""
        return sum(row.question.out_of for row in self.rows if row.points is not None)

    @property
    def share(self) -> float | None:
        """Return the share of the points, of what is marked; None: nothing is."""
        return self.points / self.out_of if self.out_of else None

    @property
    def missing(self) -> bool:
        """Say whether nothing was handed in that could be kept."""
        return self.reason == NOTHING or self.reason.startswith(REFUSED)

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
    asked: tuple[Asked, ...] = ()
    """The predictions that the unit asks for."""

    @property
    def out_of(self) -> float:
        """Return the points that could be earned."""
        return sum(question.out_of for question in self.questions)

    @property
    def marked(self) -> tuple[Entry, ...]:
        """Return the entries that hold results."""
        return tuple(entry for entry in self.entries if entry.rows)

    @property
    def in_notebooks(self) -> tuple[Entry, ...]:
        """Return the entries that hold results, without those of work on paper alone."""
        return tuple(entry for entry in self.marked if not entry.on_paper)

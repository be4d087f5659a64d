"""What a class's results say: which questions were hard, who can do what, which slips came often.

Classical test theory, first principles: difficulty is the mean share of the points, and
discrimination the correlation of a question with the sum of the others.
"""

import math
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from fuelmarks.book.record import ClassRecord, Entry, Question
from fuelmarks.marking.verdicts import families_in

__all__ = [
    "FamilyCount",
    "QuestionFigures",
    "SlipCount",
    "bins",
    "correlation",
    "family_counts",
    "mastery",
    "question_figures",
    "slip_counts",
]

FEWEST = 5
"""From how many trainees on a correlation is shown at all."""


@dataclass(frozen=True)
class QuestionFigures:
    """How a question went: `share` of the points earned, and how it tells trainees apart."""

    question: Question
    share: float | None
    discrimination: float | None
    full: int
    none: int


@dataclass(frozen=True)
class SlipCount:
    """A declared slip, how many made it, and what it says."""

    question: Question
    slip: str
    count: int
    comment: str


@dataclass(frozen=True)
class FamilyCount:
    """A family of slips that wrong answers look like, how many, and in which questions."""

    family: str
    count: int
    questions: tuple[Question, ...]


def question_figures(record: ClassRecord) -> list[QuestionFigures]:
    """Return the figures of every question, over the trainees whose points are known."""
    return [_figures(record, question) for question in record.questions]


def mastery(entry: Entry, code: str) -> float | None:
    """Return the share of the points earned for outcome `code`, of what is marked, or None."""
    marked = [row for row in entry.rows if row.points is not None]
    rows = [row for row in marked if code in row.question.outcomes]
    out_of = sum(row.question.out_of for row in rows)
    return sum(row.points or 0.0 for row in rows) / out_of if out_of else None


def slip_counts(record: ClassRecord) -> list[SlipCount]:
    """Return the declared slips that were made, the commonest first."""
    made = Counter(
        (row.question, row.verdict.removeprefix("slip:"))
        for entry in record.marked
        for row in entry.rows
        if row.verdict.startswith("slip:")
    )
    found = [
        SlipCount(question, slip, count, _comment(record, question, slip))
        for (question, slip), count in made.items()
    ]
    return sorted(found, key=lambda one: (-one.count, one.question.number, one.slip))


def family_counts(record: ClassRecord) -> list[FamilyCount]:
    """Return the families of slips that wrong answers look like, the commonest first."""
    found: dict[str, list[Question]] = {}
    for entry in record.marked:
        for row in entry.rows:
            for family in families_in(row.verdict):
                found.setdefault(family, []).append(row.question)
    counts = [
        FamilyCount(family, len(where), tuple(sorted(set(where), key=lambda one: one.number)))
        for family, where in found.items()
    ]
    return sorted(counts, key=lambda one: (-one.count, one.family))


def bins(record: ClassRecord, number: int = 10) -> list[int]:
    """Return how many trainees earned each tenth of the points; all of them is the last."""
    counts = [0] * number
    for entry in record.marked:
        if entry.share is not None:
            counts[min(number - 1, int(number * entry.share + 1e-9))] += 1
    return counts


def correlation(one: Sequence[float], other: Sequence[float]) -> float | None:
    """Return Pearson's correlation; None where a side does not vary or there are too few."""
    if len(one) < FEWEST:
        return None
    a, b = _centred(one), _centred(other)
    spread = math.sqrt(math.fsum(x * x for x in a) * math.fsum(y * y for y in b))
    return math.fsum(x * y for x, y in zip(a, b, strict=True)) / spread if spread > 1e-12 else None


def _figures(record: ClassRecord, question: Question) -> QuestionFigures:
    """Return the figures of one question."""
    own, rest = [], []
    for entry in record.marked:
        row = entry.row(question)
        if row is not None and row.points is not None:
            own.append(row.points)
            rest.append(sum(other.points or 0.0 for other in entry.rows if other != row))
    return QuestionFigures(
        question=question,
        share=sum(own) / (len(own) * question.out_of) if own and question.out_of else None,
        discrimination=correlation(own, rest),
        full=sum(points >= question.out_of for points in own),
        none=sum(points == 0 for points in own),
    )


def _centred(values: Iterable[float]) -> list[float]:
    """Return `values` less their mean."""
    held = list(values)
    mean = math.fsum(held) / len(held)
    return [value - mean for value in held]


def _comment(record: ClassRecord, question: Question, slip: str) -> str:
    """Return what a declared slip says to the trainee."""
    slips = {one.name: one.comment for one in record.exercise_set[question.id].slips}
    return slips.get(slip, "")

"""How often each slip was told over a term, without any name: from this, weights can be set."""

from collections import Counter
from collections.abc import Iterator, Sequence
from typing import Literal, NamedTuple, TypeAlias

from fuelmarks.book.record import ClassRecord, Question
from fuelmarks.marking.verdicts import families_in

__all__ = ["Told", "slip_table", "told_slips"]

HEAD = ("unit", "question", "words of", "slip", "times", "answers")
Whose: TypeAlias = Literal["author", "family"]


class Told(NamedTuple):
    """A slip of one question: in whose words it was told, how often, and among how many answers."""

    question: str
    whose: Whose
    slip: str
    times: int
    answers: int


def slip_table(records: Sequence[ClassRecord]) -> list[list[str]]:
    """Return a line for each question and slip, below a line of headings."""
    told = [(record.unit, one) for record in records for one in told_slips(record)]
    return [list(HEAD), *([unit, *map(str, one)] for unit, one in told)]


def told_slips(record: ClassRecord) -> Iterator[Told]:
    """Yield what was told in one unit, by question."""
    for question in record.questions:
        yield from _of(record, question)


def _of(record: ClassRecord, question: Question) -> Iterator[Told]:
    """Yield what was told in one question."""
    rows = [row for entry in record.marked if (row := entry.row(question))]
    answers = sum(row.verdict not in ("blank", "missing") for row in rows)
    found = Counter(one for row in rows for one in _in_verdict(row.verdict))
    for (whose, slip), times in sorted(found.items()):
        yield Told(question.id, whose, slip, times, answers)


def _in_verdict(verdict: str) -> list[tuple[Whose, str]]:
    """Return the slips that a verdict speaks of, each with whose words it says."""
    if verdict.startswith("slip:"):
        return [("author", verdict.removeprefix("slip:"))]
    return [("family", family) for family in families_in(verdict)]

"""How often each slip was told over a term, without any name: from this, weights can be set."""

from collections import Counter
from collections.abc import Iterator, Sequence

from fuelmarks.book.record import ClassRecord
from fuelmarks.marking.verdicts import families_in

__all__ = ["slip_table"]

HEAD = ("unit", "question", "words of", "slip", "times", "answers")


def slip_table(records: Sequence[ClassRecord]) -> list[list[str]]:
    """Return a line for each question and slip, below a line of headings.

    A line says whether the author's own words or those of a family were said, how often, and
    among how many answers.
    """
    return [list(HEAD), *(row for record in records for row in _rows(record))]


def _rows(record: ClassRecord) -> Iterator[list[str]]:
    """Yield the lines of one unit, by question."""
    for question in record.questions:
        rows = [row for entry in record.marked if (row := entry.row(question))]
        answers = sum(row.verdict not in ("blank", "missing") for row in rows)
        told = Counter(one for row in rows for one in _told(row.verdict))
        for (whose, slip), times in sorted(told.items()):
            yield [record.unit, question.id, whose, slip, str(times), str(answers)]


def _told(verdict: str) -> list[tuple[str, str]]:
    """Return the slips that a verdict speaks of, each with whose words it says."""
    if verdict.startswith("slip:"):
        return [("author", verdict.removeprefix("slip:"))]
    return [("family", family) for family in families_in(verdict)]

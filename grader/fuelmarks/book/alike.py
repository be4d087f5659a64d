"""The same answers to different numbers: what copying from a neighbour leaves behind.

Everybody has numbers of his own, so two who hand over the same value, to three figures or more,
where different ones are right, cannot both have worked it out. It is a reason to ask, no proof.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from fuelmarks.book.record import ClassRecord, Entry, Question
from fuelmarks.course.course import Trainee

__all__ = ["Alike", "alike"]

FEWEST = 2
"""From how many such answers on a pair is named: one alone may be chance."""
FIGURES = 3
APART = 0.05
"""How far the right answers must lie apart, as a share of the larger."""


@dataclass(frozen=True)
class Alike:
    """Two trainees, and the questions to which they gave one answer where two are right."""

    one: Trainee
    other: Trainee
    questions: tuple[Question, ...]


def alike(record: ClassRecord) -> list[Alike]:
    """Return the pairs with the most answers in common first."""
    pairs = (
        Alike(one.trainee, other.trainee, tuple(_shared(record.questions, one, other)))
        for one, other in combinations(record.marked, 2)
    )
    named = [pair for pair in pairs if len(pair.questions) >= FEWEST]
    return sorted(named, key=lambda pair: -len(pair.questions))


def _shared(questions: Sequence[Question], one: Entry, other: Entry) -> Iterator[Question]:
    """Yield the questions that two answered alike, where their right answers differ."""
    for question in questions:
        mine, yours = one.row(question), other.row(question)
        if mine is None or yours is None or mine.expected is None or yours.expected is None:
            continue
        apart = abs(mine.expected - yours.expected)
        differ = apart > APART * max(abs(mine.expected), abs(yours.expected))
        same = _plain(mine.handed_over) == _plain(yours.handed_over)
        if differ and same and _figures(mine.handed_over):
            yield question


def _plain(text: str) -> str:
    """Return what was handed over without blanks, quotes and the kind of decimal sign."""
    return re.sub(r"[\s“”]", "", text).replace(",", ".").lower()


def _figures(text: str) -> bool:
    """Return whether a number is written to so many figures that chance hardly repeats it."""
    number = re.search(r"\d[\d.,]*", text)
    digits = re.sub(r"\D", "", number[0]).lstrip("0") if number else ""
    return len(digits.rstrip("0")) >= FIGURES

"""How long a unit takes, part by part: counted from what stands in its text and its questions.

The words of each part are read at the class's pace, and each task, example and question takes the
time of its kind. The job in the shop says its own minutes and is not counted here.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from fuelmarks.course.cells import RUBRIC
from fuelmarks.course.directives import Directive
from fuelmarks.paper.pace import Pace
from fuelmarks.questions import Choice, Exercise, ExerciseSet, Selection

__all__ = ["AT_HOME", "Part", "double_lessons", "parts_of", "sheets_of"]

FIVE = 5
DEMONSTRATION = "Demonstration"
READING = "What is in there, and from the trade"
SHOP = "In the shop"
PARTS: Mapping[str, str] = {
    "": "The job, and predictions",
    "Predict": "The job, and predictions",
    DEMONSTRATION: DEMONSTRATION,
    "What is in there": READING,
    "Try it": "Try it",
    "A worked example": "Worked examples and those with gaps",
    "The same with gaps": "Worked examples and those with gaps",
    "Your own numbers": "Own numbers",
    "In your own words": "In your own words",
    "From earlier units": "From earlier units",
}
"""How the parts of a lesson are called, by how a heading begins; others are read."""
AT_HOME = ("In your own words", "From earlier units")
"""Parts that need no bench and no instructor."""
UNTOLD_STEPS = 2
"""Steps of a sum whose formula is not told step by step."""
HEADING = re.compile(r"^## (.*)$", re.M)
CODE = re.compile(r"^```.*?^```$", re.M | re.S)
TASK = re.compile(r"^\*\*Task \d+\.\*\*.*$", re.M)
SENTENCE = re.compile(r"[.?!](?=\s|$)")
PART = re.compile(r"\(\d+\)")
DRIVEN = "Drive it"
TIME = re.compile(r"^\*\*Time\.\*\* (\d+) minutes", re.M)
SHEET = re.compile(r"^### .* (\d+) minutes$", re.M)


@dataclass(frozen=True)
class Part:
    """A stretch of a lesson."""

    name: str
    minutes: int

    @property
    def at_home(self) -> bool:
        """Say whether it can be done at home."""
        return self.name in AT_HOME


def parts_of(
    text: Iterable[str | Directive], questions: ExerciseSet, pace: Pace, shown: float
) -> tuple[Part, ...]:
    """Return the parts of a lesson in whole fives, as a unit's `text` has them, in order.

    `shown` is how many minutes the demonstration takes.
    """
    spent = dict.fromkeys(PARTS.values(), 0.0) | {DEMONSTRATION: shown}
    for heading, piece in _pieces(text):
        if not heading.startswith(SHOP):
            spent[_part(heading)] += _minutes(piece, questions, pace)
    return tuple(Part(name, _fives(minutes)) for name, minutes in spent.items() if minutes)


def _pieces(text: Iterable[str | Directive]) -> Iterator[tuple[str, str | Directive]]:
    """Yield every stretch of plain text and every directive with the heading above it."""
    heading = ""
    for found in text:
        if isinstance(found, Directive):
            yield heading, found
            continue
        first, *rest = HEADING.split(CODE.sub("", found))
        yield heading, first
        for heading, words in zip(rest[::2], rest[1::2], strict=True):
            yield heading, words


def _part(heading: str) -> str:
    """Return which part of a lesson a heading begins."""
    named = (part for start, part in PARTS.items() if start and heading.startswith(start))
    return next(named, READING) if heading else PARTS[""]


def _minutes(piece: str | Directive, questions: ExerciseSet, pace: Pace) -> float:
    """Return how long a stretch of text or a directive takes."""
    if isinstance(piece, str):
        tasks = sum(_task(one, pace) for one in TASK.findall(piece))
        return pace.text(piece) + pace.look * len(PART.findall(piece)) + tasks
    if piece.kind == "predict":
        return pace.text(piece.body) + pace.predict
    if piece.kind == "written":
        return pace.text(piece.body.partition(RUBRIC)[0]) + pace.written
    if piece.kind not in ("worked", "gaps", "exercise"):
        return 0.0
    asked = questions[piece.name]
    if piece.kind == "exercise":
        return pace.text(asked.ask) + _answering(asked, pace)
    each = pace.follow if piece.kind == "worked" else pace.gap
    return pace.text(piece.body) + each * _steps(asked)


def _task(words: str, pace: Pace) -> float:
    """Return how long a task takes once it is read: each sentence is to be done or answered."""
    return pace.move * len(SENTENCE.findall(words)) + pace.drive * (DRIVEN in words)


def _answering(asked: Exercise, pace: Pace) -> float:
    """Return how long an answer takes once the question is read."""
    if isinstance(asked, Selection):
        return pace.prove
    if isinstance(asked, Choice) and asked.beside:
        return pace.find
    by_form = {"name": pace.choose, "setting": pace.setting, "drive": pace.setting + pace.drive}
    return by_form.get(asked.form, pace.step * _steps(asked))


def _steps(asked: Exercise) -> int:
    """Return how many steps lead to the answer."""
    return len(asked.method.formula.steps) if asked.method else UNTOLD_STEPS


def _fives(minutes: float) -> int:
    """Return minutes in whole fives; what is done at all takes one of them."""
    return FIVE * max(1, round(minutes / FIVE))


def sheets_of(shop: str) -> tuple[int, ...]:
    """Return the minutes of each sheet of a job in the shop; of one sheet, those of the job."""
    sheets = SHEET.findall(shop) or TIME.findall(shop)
    return tuple(int(minutes) for minutes in sheets)


def double_lessons(sheets: Iterable[int], double: float) -> int:
    """Return how many double lessons sheets take in their order, none of them broken off."""
    count, left = 0, 0.0
    for minutes in sheets:
        if minutes > left:
            count, left = count + 1, double
        left -= minutes
    return count

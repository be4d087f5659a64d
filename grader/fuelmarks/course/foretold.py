"""Predictions: what the text asks before anybody has looked, and what somebody wrote then and now.

A notebook asks each twice: before the bench is opened, and at the end of the unit. Both answers
are letters in the text of code cells, and `foretold_in` is the one place where they are read, in
a class's returned notebooks and in those of one who learns alone.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from fuelmarks.course.course import Course
from fuelmarks.course.directives import Directive, split
from fuelmarks.questions import ExerciseSet, Prediction

__all__ = [
    "AGAIN",
    "FIRST",
    "Asked",
    "Foretold",
    "asked_in",
    "asked_of",
    "foretold_in",
    "key_to",
]

FIRST, AGAIN = "prediction", "now"
"""How the names of the two answers begin."""
OPTION = re.compile(r"^- ([A-Z]): (\S.*)$", re.M)
ANSWER = re.compile(
    rf"^[ \t]*({FIRST}|{AGAIN})_(\w{{1,80}})[ \t]*=[ \t]*([\"'])([^\"'\n]{{0,80}})\3", re.M
)


@dataclass(frozen=True)
class Asked:
    """A prediction as the text asks it: its question, and the answers by letter."""

    name: str
    question: str
    options: Mapping[str, str]

    @property
    def title(self) -> str:
        """Return the name as words."""
        return self.name.replace("-", " ").capitalize()


@dataclass(frozen=True)
class Foretold:
    """What somebody wrote: before the bench was opened, and at the end; nothing if left empty."""

    name: str
    then: str = ""
    now: str = ""


def asked_of(directive: Directive) -> Asked:
    """Return what a directive asks; raise `CourseError` if it has no answers A, B and so on."""
    options = dict(OPTION.findall(directive.body))
    wanted = [chr(ord("A") + place) for place in range(max(2, len(options)))]
    if list(options) != wanted or len(OPTION.findall(directive.body)) != len(wanted):
        rule = f"answers of {directive.name} must be lines - A: …, - B: … and so on, each once"
        raise directive.refuse(rule, ", ".join(options) or "none")
    question = OPTION.sub("", directive.body).strip()
    return Asked(directive.name, question, options)


def asked_in(course: Course, unit: str) -> Iterator[Asked]:
    """Yield the predictions that the text of `unit` asks for, in order."""
    path: Path = course.text(unit)
    for part in split(path.read_text(encoding="utf-8"), path):
        if isinstance(part, Directive) and part.kind == "predict":
            yield asked_of(part)


def key_to(exercise_set: ExerciseSet, name: str) -> Prediction | None:
    """Return the key to a prediction of `exercise_set`; None if there is none of that name."""
    return next((one for one in exercise_set.predictions if one.id == name), None)


def foretold_in(cells: Iterable[Mapping[str, Any]]) -> dict[str, Foretold]:
    """Return what is written in the code `cells` of a notebook, by the name of the prediction.

    A letter is given large. What stands last counts, as it does when the cells are run.
    """
    written: dict[str, dict[str, str]] = {}
    for cell in cells:
        if cell.get("cell_type") == "code":
            for which, name, _, text in ANSWER.findall(_source(cell)):
                if letter := text.strip():
                    said = letter.upper() if len(letter) == 1 else letter
                    written.setdefault(name.replace("_", "-"), {})[which] = said
    return {
        name: Foretold(name, said.get(FIRST, ""), said.get(AGAIN, ""))
        for name, said in written.items()
    }


def _source(cell: Mapping[str, Any]) -> str:
    """Return the text of a cell, which a file may keep as a list of lines."""
    source = cell.get("source", "")
    lines = source if isinstance(source, list) else [source]
    return "".join(line for line in lines if isinstance(line, str))

"""A unit as its instructor prepares it: time, tools, hazards, and the slips to expect.

Everything is read from the unit's own text and exercises; only the minutes and the demonstration
stand in ``term_plan.toml``.
"""

import re
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.directives import Directive, split
from fuelmarks.course.foretold import key_to
from fuelmarks.course.unit_text import filled_text
from fuelmarks.paper.key import rubrics
from fuelmarks.questions import ExerciseSet

__all__ = ["Lesson", "Part", "lesson", "lessons"]

SHARES: Mapping[str, float] = {
    "The job, and predictions": 0.08,
    "Demonstration": 0.10,
    "What is in there": 0.10,
    "Try it": 0.20,
    "Worked example and the one with gaps": 0.17,
    "Own numbers": 0.25,
    "Review, questions, clearing up": 0.10,
}
"""How the minutes of a unit are shared out; the job sheet is done in the shop, on top of them."""
FIVE = 5
RIG = "plover"
"""The rig of a unit that names none."""


@dataclass(frozen=True)
class Part:
    """A stretch of a lesson."""

    name: str
    minutes: int


@dataclass(frozen=True)
class Foreseen:
    """A prediction that the class is asked for, with its key."""

    text: str
    right: str
    why: str


@dataclass(frozen=True)
class Lesson:
    """All that an instructor lays out for one unit."""

    unit: str
    title: str
    minutes: int
    demonstration: str
    parts: tuple[Part, ...]
    complaint: str
    predictions: tuple[Foreseen, ...]
    tasks: tuple[str, ...]
    tools: str
    cautions: tuple[str, ...]
    slips: tuple[tuple[str, str], ...]
    """Exercise and what to say about a slip."""
    outcomes: tuple[str, ...]
    rubrics: tuple[tuple[str, str], ...]
    rig: str = RIG
    """The rig that the unit works with."""


def lessons(course: Course) -> Iterator[Lesson]:
    """Yield the plan of every unit; raise `CourseError` if one is not in ``term_plan.toml``."""
    for unit in course.units():
        yield lesson(course, unit)


def lesson(course: Course, unit: str) -> Lesson:
    """Return the plan of one unit.

    Raises
    ------
    CourseError
        If there is no such unit, or ``term_plan.toml`` has no entry of it that can be used.
    """
    path = course.text(unit)
    text, exercise_set, planned = (
        filled_text(path, course.root / "rigs"),
        course.questions(unit),
        _planned(course, unit),
    )
    shop = text.partition("## In the shop")[2].partition("\n## ")[0]
    found = [part for part in split(text, path) if isinstance(part, Directive)]
    return Lesson(
        unit=unit,
        title=exercise_set.title,
        minutes=planned["minutes"],
        demonstration=planned["demonstration"],
        parts=tuple(_parts(planned["minutes"])),
        complaint=_after(text, r"\*\*A job comes in\.\*\*\s*(.*?)\n\n"),
        predictions=tuple(_foreseen(one, exercise_set) for one in found if one.kind == "predict"),
        tasks=tuple(re.findall(r"^\*\*Task \d+\.\*\*\s*(.*?)$", text, flags=re.M)),
        tools=_after(shop, r"\*\*Tools\.\*\*\s*(.*?)\n\n"),
        cautions=tuple(_cautions(shop)),
        slips=tuple(_slips(exercise_set)),
        outcomes=tuple(dict.fromkeys(code for one in exercise_set for code in one.outcomes)),
        rubrics=tuple(rubrics(course, unit)),
        rig=next((one.options.get("rig", "") for one in found if one.kind == "begin"), "") or RIG,
    )


def _foreseen(directive: Directive, exercise_set: ExerciseSet) -> Foreseen:
    """Return a prediction with its key, which is empty where a unit has none."""
    key = key_to(exercise_set, directive.name)
    return Foreseen(directive.body, key.right if key else "", key.why if key else "")


def _planned(course: Course, unit: str) -> Mapping[str, Any]:
    """Return the entry of `unit` in the term plan."""
    path = course.root / "term_plan.toml"
    try:
        entry = tomllib.loads(path.read_text(encoding="utf-8")).get(unit)
    except (OSError, tomllib.TOMLDecodeError) as error:
        raise CourseError(f"term plan must be a file of TOML, got {path}: {error}") from error
    entry = entry if isinstance(entry, dict) else {}
    minutes = entry.get("minutes")
    if not isinstance(minutes, int) or not 30 <= minutes <= 300:
        raise CourseError(f"{path}: minutes of {unit} must be between 30 and 300, got {minutes!r}")
    if not isinstance(entry.get("demonstration"), str):
        raise CourseError(f"{path}: {unit} must have a demonstration, got {entry}")
    return dict(entry)


def _parts(minutes: int) -> Iterator[Part]:
    """Yield the parts of a lesson in whole fives, the last one taking what is left."""
    left = minutes
    *most, last = SHARES
    for name in most:
        given = max(FIVE, FIVE * round(minutes * SHARES[name] / FIVE))
        left -= given
        yield Part(name, given)
    yield Part(last, left)


def _after(text: str, pattern: str) -> str:
    """Return what `pattern` catches in `text`, on one line; nothing if it is not there."""
    found = re.search(pattern, text, flags=re.S)
    return " ".join(found[1].split()) if found else ""


def _cautions(shop: str) -> Iterator[str]:
    """Yield every caution of a job sheet, to the end of its paragraph or step."""
    for found in re.finditer(
        r"\*\*Caution[.:]\*\*\s*(.*?)(?=\n\n|\n\d+\. |\n\||\Z)", shop, flags=re.S
    ):
        words = " ".join(found[1].split())
        yield words[0].upper() + words[1:]


def _slips(exercise_set: ExerciseSet) -> Iterator[tuple[str, str]]:
    """Yield the first slip of every exercise, which is the commonest."""
    for exercise in exercise_set:
        if exercise.slips:
            yield exercise.id.replace("-", " "), exercise.slips[0].comment

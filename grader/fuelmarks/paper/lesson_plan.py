"""A unit as its instructor prepares it: time, tools, hazards, and the slips to expect.

Everything is read from the unit's own text and exercises; only the demonstration and the pace of
the class stand in ``term_plan.toml``.
"""

import re
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import ceil
from typing import Any

from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.directives import Directive, split
from fuelmarks.course.foretold import key_to
from fuelmarks.course.unit_text import filled_text
from fuelmarks.paper.key import rubrics
from fuelmarks.paper.minutes import Part, double_lessons, parts_of, sheets_of
from fuelmarks.paper.pace import NAME as PACE
from fuelmarks.paper.pace import Pace, pace_from
from fuelmarks.paper.usual_slips import Made, UsualSlips, usual_slips
from fuelmarks.questions import ExerciseSet

__all__ = ["Lesson", "lesson", "lessons"]

ENTRIES = ("demonstration", "demonstration_minutes")
FRONT = re.compile(r"\A---\n.*?\n---\n", re.S)
NOTHING: Made = {}
RIG = "plover"
"""The rig of a unit that names none."""


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
    demonstration: str
    parts: tuple[Part, ...]
    sheets: tuple[int, ...]
    """Minutes of each sheet of the job in the shop, as they say them."""
    complaint: str
    predictions: tuple[Foreseen, ...]
    tasks: tuple[str, ...]
    tools: str
    cautions: tuple[str, ...]
    slips: tuple[UsualSlips, ...]
    outcomes: tuple[str, ...]
    rubrics: tuple[tuple[str, str], ...]
    double: float
    """Minutes of a double lesson."""
    rig: str = RIG
    """The rig that the unit works with."""

    @property
    def minutes(self) -> int:
        """Return the minutes in the classroom."""
        return sum(part.minutes for part in self.parts if not part.at_home)

    @property
    def home(self) -> int:
        """Return the minutes at home."""
        return sum(part.minutes for part in self.parts if part.at_home)

    @property
    def lessons(self) -> int:
        """Return how many double lessons the classroom takes."""
        return ceil(self.minutes / self.double)

    @property
    def shop(self) -> int:
        """Return the minutes in the shop."""
        return sum(self.sheets)

    @property
    def shop_lessons(self) -> int:
        """Return how many double lessons the shop takes, no sheet being broken off."""
        return double_lessons(self.sheets, self.double)


def lessons(course: Course) -> Iterator[Lesson]:
    """Yield the plan of every unit; raise `CourseError` if one is not in ``term_plan.toml``."""
    for unit in course.units():
        yield lesson(course, unit)


def lesson(course: Course, unit: str, made: Made = NOTHING) -> Lesson:
    """Return the plan of one unit; `made` are the slips that a class has made in it.

    Raises
    ------
    CourseError
        If there is no such unit, or ``term_plan.toml`` has no entry of it that can be used.
    """
    path = course.text(unit)
    text, exercise_set = filled_text(path, course.root / "rigs"), course.questions(unit)
    planned, pace = _planned(course, unit)
    shop = text.partition("## In the shop")[2].partition("\n## ")[0]
    pieces = list(split(FRONT.sub("", text), path))
    found = [part for part in pieces if isinstance(part, Directive)]
    shown = planned.get("demonstration_minutes", pace.demonstration)
    return Lesson(
        unit=unit,
        title=exercise_set.title,
        demonstration=planned["demonstration"],
        parts=parts_of(pieces, exercise_set, pace, shown),
        sheets=sheets_of(shop),
        complaint=_after(text, r"\*\*A job comes in\.\*\*\s*(.*?)\n\n"),
        predictions=tuple(_foreseen(one, exercise_set) for one in found if one.kind == "predict"),
        tasks=tuple(re.findall(r"^\*\*Task \d+\.\*\*\s*(.*?)$", text, flags=re.M)),
        tools=_after(shop, r"\*\*Tools\.\*\*\s*(.*?)\n\n"),
        cautions=tuple(_cautions(shop)),
        slips=tuple(usual_slips(exercise_set, made)),
        outcomes=tuple(dict.fromkeys(code for one in exercise_set for code in one.outcomes)),
        rubrics=tuple(rubrics(course, unit)),
        double=pace.lesson,
        rig=next((one.options.get("rig", "") for one in found if one.kind == "begin"), "") or RIG,
    )


def _foreseen(directive: Directive, exercise_set: ExerciseSet) -> Foreseen:
    """Return a prediction with its key, which is empty where a unit has none."""
    key = key_to(exercise_set, directive.name)
    return Foreseen(directive.body, key.right if key else "", key.why if key else "")


def _planned(course: Course, unit: str) -> tuple[Mapping[str, Any], Pace]:
    """Return the entry of `unit` in the term plan, and the pace of the class."""
    path = course.root / "term_plan.toml"
    try:
        plan = tomllib.loads(path.read_text(encoding="utf-8"))
    except (OSError, tomllib.TOMLDecodeError) as error:
        raise CourseError(f"term plan must be a file of TOML, got {path}: {error}") from error
    entry, pace = (_table(plan, name, str(path)) for name in (unit, PACE))
    if strange := [name for name in entry if name not in ENTRIES]:
        rule = f"{unit} must have no entries but {', '.join(ENTRIES)}"
        raise CourseError(f"{path}: {rule}, got {strange[0]!r}")
    if not isinstance(entry.get("demonstration"), str):
        raise CourseError(f"{path}: {unit} must have a demonstration, got {entry}")
    minutes = entry.get("demonstration_minutes", 1)
    if not isinstance(minutes, int) or not 1 <= minutes <= 120:
        rule = f"demonstration_minutes of {unit} must be between 1 and 120"
        raise CourseError(f"{path}: {rule}, got {minutes!r}")
    return entry, pace_from(pace, str(path))


def _table(plan: Mapping[str, Any], name: str, where: str) -> Mapping[str, Any]:
    """Return a table of the term plan, empty where there is none."""
    table = plan.get(name, {})
    if not isinstance(table, dict):
        raise CourseError(f"{where}: {name} must be a table, got {table!r}")
    return table


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

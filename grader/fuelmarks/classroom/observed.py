"""Observed work: who watched which trainee do what, with which reading, and whether it passed.

All of it stands in one file of the course, ``observed.csv``. Lines are only ever added. What was
written wrong is put right by a new line that names the number of the old one, and both stay.
"""

import csv
import io
import os
from collections.abc import Iterable, Sequence
from dataclasses import astuple, dataclass
from datetime import date, datetime
from pathlib import Path
from typing import Literal, TypeAlias, get_args

from fuelmarks.classroom.observed_rules import Rules
from fuelmarks.course.at_work import at_work
from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.outcomes import read_outcomes
from fuelmarks.course.whole_file import settle_folder

__all__ = ["FILE", "HEAD", "Observation", "Seen", "Taken", "enter", "read_observed", "standing"]

FILE = "observed.csv"
HEAD = (
    *("number", "entered", "trainee", "outcome", "observed on", "reading", "result"),
    *("watched by", "note", "corrects"),
)
Result: TypeAlias = Literal["pass", "not yet", "withdrawn"]


@dataclass(frozen=True)
class Seen:
    """One piece of work that somebody has watched; `corrects` is the number of a line, or 0."""

    trainee: str
    outcome: str
    day: str
    reading: str
    result: str
    watched_by: str
    note: str = ""
    corrects: int = 0


@dataclass(frozen=True)
class Observation:
    """A line of the file: its number, when it was entered, and what was seen."""

    number: int
    entered: str
    seen: Seen

    @property
    def passed(self) -> bool:
        """Say whether the work was good."""
        return self.seen.result == "pass"


@dataclass(frozen=True)
class Taken:
    """What became of work that was to be entered: the new lines, and how many stood there."""

    new: tuple[Observation, ...]
    known: int


def read_observed(course: Course) -> tuple[Observation, ...]:
    """Return every line of the file, in order; none if there is no file.

    Raises `CourseError` that names line, rule and value where a line is not as it was written.
    """
    path = course.root / FILE
    if not path.exists():
        return ()
    try:
        text = path.read_text(encoding="utf-8-sig")
        rows = list(csv.reader(io.StringIO(text, newline=""), strict=True))
    except (UnicodeDecodeError, csv.Error) as error:
        raise CourseError(f"{path} must be the file that was written here, got: {error}") from error
    if not rows or tuple(rows[0]) != HEAD:
        raise CourseError(f"{path}: headings must be {', '.join(HEAD)}, got {rows[:1]}")
    lines = [row for row in rows[1:] if row]
    return tuple(_line(path, number, row) for number, row in enumerate(lines, start=1))


def standing(lines: Iterable[Observation]) -> list[Observation]:
    """Return the lines that no later one corrects, without what was withdrawn."""
    held = list(lines)
    corrected = {one.seen.corrects for one in held}
    kept = [one for one in held if one.number not in corrected]
    return [one for one in kept if one.seen.result != "withdrawn"]


def enter(course: Course, work: Sequence[Seen], now: datetime, places: Sequence[str] = ()) -> Taken:
    """Write `work` down, all of it or, if any of it breaks a rule, none.

    What was written once, word for word, is not written twice, even if it was corrected since.
    Raises `CourseError` that names every piece of work that breaks a rule (by `places`, as many
    as there is work), the rule, and the value.
    """
    with at_work(course.root, "entering of observed work"):
        lines = read_observed(course)
        rules, known = _rules(course, lines, now.date()), {one.seen for one in lines}
        named = list(places) or ["this work"] * len(work)
        new = {one: at for at, one in zip(named, work, strict=True) if one not in known}
        if faults := [f"{new[one]}: {said}" for one, said in rules.faults(new)]:
            raise CourseError("\n".join(["nothing was written down, since", *faults]))
        entered = f"{now.astimezone():%Y-%m-%d %H:%M}"
        made = [Observation(number, entered, one) for number, one in enumerate(new, len(lines) + 1)]
        if made:
            _append(course.root / FILE, made)
        return Taken(tuple(made), len(work) - len(made))


def _rules(course: Course, lines: Sequence[Observation], today: date) -> Rules:
    """Return what new work is held against."""
    watched = tuple(code for code, one in read_outcomes(course).items() if one.watched)
    corrected = {one.seen.corrects for one in lines}
    free = frozenset(one.number for one in lines if one.number not in corrected)
    people = frozenset(one.id for one in course.trainees())
    return Rules(people, watched, get_args(Result), free, today)


def _append(path: Path, lines: Sequence[Observation]) -> None:
    """Add lines to the file and have them on the disk."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    if not path.exists():
        writer.writerow(HEAD)
    for one in lines:
        *seen, corrects = astuple(one.seen)
        writer.writerow([one.number, one.entered, *seen, corrects or ""])
    ended = not path.exists() or path.read_bytes().endswith(b"\n")  # an editor may leave it open
    handle = os.open(path, os.O_WRONLY | os.O_APPEND | os.O_CREAT, 0o644)
    with os.fdopen(handle, "wb") as file:
        file.write(b"" if ended else b"\r\n")
        file.write(text.getvalue().encode())
        file.flush()
        os.fsync(file.fileno())
    settle_folder(path.parent)


def _line(path: Path, number: int, row: list[str]) -> Observation:
    """Return one line of the file."""
    where = f"{path}, line {number + 1}"
    if len(row) != len(HEAD):
        raise CourseError(f"{where}: must have {len(HEAD)} columns, got {len(row)}: {row}")
    given, entered, *seen, corrects = row
    if given != str(number):
        rule = "number must count on from the line before; lines are never taken out"
        raise CourseError(f"{where}: {rule}, got {given!r} in the place of {number}")
    if corrects and not (corrects.isdecimal() and int(corrects) < number):
        raise CourseError(
            f"{where}: corrects must be the number of a line before, got {corrects!r}"
        )
    trainee, outcome, day, reading, result, watched_by, note = seen
    if result not in get_args(Result):
        rule = f"result must be one of {', '.join(get_args(Result))}"
        raise CourseError(f"{where}: {rule}, got {result!r}")
    corrected = int(corrects or 0)
    one = Seen(trainee, outcome, day, reading, result, watched_by, note, corrected)
    return Observation(number, entered, one)

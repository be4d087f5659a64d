"""Answers to every question that shows a picture, right and wrong, as the real marking meets them.

    python -m tests.benchmarks.pictures FOLDER

writes a table as Markdown, and the same with the drawings as a page to look at.
"""

import csv
import sys
from collections.abc import Iterator, Mapping
from html import escape
from pathlib import Path
from typing import NamedTuple

from fuelcircuits.answer_sheet.sheet import record
from fuelcircuits.quantities.kinds import dimension_of
from fuelmarks.authoring.checker import UNITS
from fuelmarks.course.cells import sketch_picture
from fuelmarks.course.course import Course
from fuelmarks.formula.grammar import read
from fuelmarks.marking.marking import Mark, mark_sheet
from fuelmarks.questions import Choice, Exercise, ExerciseSet, Sheet, draw, load
from fuelmarks.questions.frame.drawing import from_si

from tests.places import COURSE_FOLDER, TOP
from tests.slips.habits import habits

SEED, FIVE = 3, 5
CARD = (COURSE_FOLDER / "rigs" / "plover.toml").read_text("utf-8")
READINGS = TOP / "tests" / "questions" / "picture_readings.csv"
HEAD = ("question", "what was done", "written", "told", "points", "comment")


class Answered(NamedTuple):
    """One answer: what somebody did, what he wrote, and what marking says."""

    done: str
    written: str
    mark: Mark

    @property
    def cells(self) -> tuple[str, ...]:
        """Return what stands in a row of the table."""
        mark = self.mark
        points = f"{mark.points:g} of {mark.out_of}"
        return (self.done, self.written, mark.verdict, points, mark.comment)


def pictured() -> Iterator[tuple[ExerciseSet, Exercise]]:
    """Yield every question that shows a picture."""
    for unit in Course(COURSE_FOLDER).units():
        exercises = load(unit)
        yield from ((exercises, one) for one in exercises if one.sketch is not None)


def answered(exercises: ExerciseSet, one: Exercise) -> Iterator[Answered]:
    """Yield five right answers to a question, then the wrong ones."""
    sheet = draw(exercises, SEED)
    for done, text in (*_right(one, sheet), *_wrong(exercises.unit, one, sheet)):
        handed = {one.id: dict(record(exercises.unit, one.id, text))}
        yield Answered(done, text, mark_sheet(exercises, sheet, handed)[one.id])


def _right(one: Exercise, sheet: Sheet) -> Iterator[tuple[str, str]]:
    """Yield a right answer in five ways in which people write it."""
    if isinstance(one, Choice):
        name = one.written(sheet.answers[one.id])
        spelt = {"as it is listed": name, "in capitals": name.upper(), "in words": _spaced(name)}
        yield from (spelt | {"in quotes": f'"{name}"', "with a full stop": f"{name}."}).items()
        return
    number, unit = from_si(sheet.answers[one.id], one.unit), _spelt(one.unit)
    yield "four figures", f"{number:.4g} {unit}".strip()
    yield "three figures", f"{number:.3g} {unit}".strip()
    yield "a decimal comma", f"{number:.4g} {unit}".strip().replace(".", ",")
    for other in _others(one):
        yield f"in {other}", f"{from_si(sheet.answers[one.id], other):.4g} {other}"


def _others(one: Exercise) -> list[str]:
    """Return two more units of the same kind."""
    alike = [unit for unit in UNITS if dimension_of(unit) == dimension_of(one.unit)]
    return [unit for unit in alike if unit != one.unit][:2]


def _spelt(unit: str) -> str:
    return "%" if unit == "percent" else unit


def _spaced(name: str) -> str:
    return name.replace("-", " ").capitalize()


def _wrong(unit: str, one: Exercise, sheet: Sheet) -> Iterator[tuple[str, str]]:
    """Yield wrong answers: readings, habits, a number alone, and what is no number."""
    if isinstance(one, Choice):
        right = one.written(sheet.answers[one.id])
        yield from (("another part", name) for name in one.options if name != right)
        yield "a part of no list", "carburettor"
        return
    yield from _read_wrong(one, sheet)
    yield from _habits(unit, one, sheet)
    if one.unit:
        yield "no unit", f"{from_si(sheet.answers[one.id], one.unit):.4g}"
    yield "words", "about the same"


def _read_wrong(one: Exercise, sheet: Sheet) -> Iterator[tuple[str, str]]:
    """Yield what somebody writes who reads an instrument wrongly."""
    for row in csv.DictReader(READINGS.read_text("utf-8").splitlines()):
        if row["question"] == one.id and row["told"] not in ("right", "no-unit"):
            yield row["why"], written(row, sheet)


def written(row: Mapping[str, str], sheet: Sheet) -> str:
    """Return what somebody writes who reads the picture as a row of the list of readings says.

    `other` is a second given with the sign that it is added with, `mark` the decimal mark.
    """
    value = sheet.givens_shown[row["given"]].value
    if sign := row["other"][:1]:
        value += float(f"{sign}1") * sheet.givens_shown[row["other"][1:]].value
    text = row["written"].format(float(row["times"]) * value + float(row["plus"]))
    return text.replace(".", row["mark"] or ".")


def _habits(unit: str, one: Exercise, sheet: Sheet) -> Iterator[tuple[str, str]]:
    """Yield what trainees do instead, by the list of their habits."""
    for habit in habits():
        if (habit.unit, habit.question) == (unit, one.id) and one.method:
            steps = read(habit.steps.replace(";", "\n"), frozenset(one.method.tables))
            value = one.method.instead(steps)(sheet.givens, sheet.answers)
            number = f"{from_si(value, one.unit):.4g}"
            yield habit.words, f"{number} {_spelt(one.unit)}".strip()


def main(folder: Path) -> None:
    """Write table and page."""
    folder.mkdir(parents=True, exist_ok=True)
    lines = [f"| {' | '.join(HEAD)} |", f"|{' --- |' * len(HEAD)}"]
    page = ["<!DOCTYPE html><meta charset='utf-8'><title>Pictures</title>", STYLE]
    for exercises, one in pictured():
        rows = list(answered(exercises, one))
        name = f"{exercises.unit}/{one.id}"
        lines += [f"| {' | '.join((name, *each.cells))} |" for each in rows]
        page += [f"<h2>{name}</h2>", _shown(exercises, one), _table(rows)]
    (folder / "pictures.md").write_text("\n".join(lines) + "\n", encoding="utf-8")
    (folder / "pictures.html").write_text("\n".join(page), encoding="utf-8")


STYLE = (
    "<style>body{font:14px sans-serif;max-width:70rem;margin:auto}td{padding:2px 6px;border-top:"
    "1px solid #ccc;vertical-align:top}img{max-width:40rem}h2{break-before:page}</style>"
)


def _shown(exercises: ExerciseSet, one: Exercise) -> str:
    """Return a question with its picture."""
    sheet = draw(exercises, SEED)
    assert one.sketch is not None
    picture = sketch_picture(one.sketch, sheet, CARD)
    return f"<p>{escape(sheet.ask(one.ask))}</p>{picture.image()}"


def _table(rows: list[Answered]) -> str:
    """Return answers as a table of a page."""
    lines = ("".join(f"<td>{escape(cell)}</td>" for cell in each.cells) for each in rows)
    return f"<table>{''.join(f'<tr>{line}</tr>' for line in lines)}</table>"


if __name__ == "__main__":
    main(Path(sys.argv[1]))

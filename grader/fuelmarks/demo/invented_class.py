"""An invented class and what it hands in: right, wrong in the ways people are wrong, and broken.

Every answer comes from an exercise's own reference or slip; nothing here knows a number.
"""

import copy
import random
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TypeAlias

from fuelcircuits.quantities.kinds import dimension_of

from fuelmarks.authoring.checker import UNITS
from fuelmarks.course.course import Course, Trainee
from fuelmarks.course.foretold import FIRST as FIRST_NAME
from fuelmarks.course.foretold import key_to
from fuelmarks.course.notebook import NotebookNode, grade_id, read, text_of
from fuelmarks.course.personal import sheet_of
from fuelmarks.course.prediction_cells import is_answer
from fuelmarks.questions import Exercise, ExerciseSet, Sheet
from fuelmarks.questions.frame.drawing import (
    answer_code,
    from_si,
    right_answer,
    right_code,
    shown_answer,
)

__all__ = ["HABITS", "class_list", "hand_in"]

FIRST = ("Ada", "Bram", "Cleo", "Dov", "Esme", "Finn", "Gus", "Hana", "Ivo", "Juna", "Kit", "Lev")
LAST = ("Floatwell", "Jetson", "Needleby", "Ventura", "Idleman", "Chokeley", "Throttleton")
OTHER = {"N": "lbf", "mm^2": "in^2", "cm^3": "in^3", "mm": "in", "kPa": "psi", "g/s": "lb/h"}


@dataclass
class Paper:
    """One trainee's notebook while it is being written in."""

    notebook: NotebookNode
    exercise_set: ExerciseSet
    sheet: Sheet
    chance: random.Random

    def answer(self, exercise: Exercise, code: str) -> None:
        """Write `code` into the answer cell of `exercise`."""
        self.cell(f"{exercise.id}-answer").source = code

    def cell(self, name: str) -> NotebookNode:
        """Return the cell called `name` without the number of the unit."""
        wanted = f"{self.exercise_set.unit[:2]}-{name}"
        cells: list[NotebookNode] = self.notebook.cells
        return next(cell for cell in cells if grade_id(cell) == wanted)


Habit: TypeAlias = Callable[[Paper], str | None]


def class_list(number: int) -> tuple[Trainee, ...]:
    """Return `number` invented trainees."""
    return tuple(
        Trainee(
            id=f"demo-{count + 1:03}",
            first_name=FIRST[count % len(FIRST)],
            last_name=LAST[count * 3 % len(LAST)],
            email=f"demo-{count + 1:03}@example.invalid",
        )
        for count in range(number)
    )


def hand_in(course: Course, unit: str, returned: Path) -> Iterator[tuple[str, str]]:
    """Write a worked notebook for every trainee into `returned`; yield trainee and habit."""
    returned.mkdir(parents=True, exist_ok=True)
    exercise_set = course.questions(unit)
    for count, trainee in enumerate(course.trainees()):
        name, habit = list(HABITS.items())[count % len(HABITS)]
        paper = Paper(
            notebook=copy.deepcopy(read(course.notebook("handout", unit, trainee.id))),
            exercise_set=exercise_set,
            sheet=sheet_of(course, exercise_set, trainee.id),
            chance=random.Random(f"{unit} {trainee.id}"),
        )
        _explain(paper)
        _foretell(paper, random.Random(f"{unit} {trainee.id} foretells"))
        text = habit(paper)
        path = returned / f"{trainee.id}.ipynb"
        path.write_text(text_of(paper.notebook) if text is None else text, encoding="utf-8")
        yield trainee.id, name


def _values(paper: Paper, slips: Mapping[str, int]) -> dict[str, float]:
    """Return answers (SI), each worked out from the ones before, with the `slips` named."""
    found: dict[str, float] = {}
    for exercise in paper.exercise_set:
        formula = exercise.reference
        if exercise.id in slips and exercise.slips:
            formula = exercise.slips[slips[exercise.id] % len(exercise.slips)].wrong
        found[exercise.id] = formula(paper.sheet.givens, found)
    return found


def _written(paper: Paper, exercise: Exercise, value: float, unit: str = "") -> str:
    """Return the code of an answer, rounded as people round, in another `unit` if there is one."""
    if exercise.form == "setting":
        return f"{exercise.variable} = {right_code(exercise, paper.sheet)}"
    if unit and exercise.form == "value":
        return f'{exercise.variable} = Q({from_si(value, unit):.4g}, "{unit}")'
    return f"{exercise.variable} = {answer_code(exercise, value)}"


def _write(paper: Paper, slips: Mapping[str, int] | None = None) -> None:
    """Answer everything in the units asked for."""
    values = _values(paper, slips or {})
    for exercise in paper.exercise_set:
        paper.answer(exercise, _written(paper, exercise, values[exercise.id]))


def _some(paper: Paper, share: float) -> dict[str, int]:
    """Return slips in about `share` of the exercises."""
    return {
        exercise.id: paper.chance.randrange(9)
        for exercise in paper.exercise_set
        if paper.chance.random() < share
    }


def _explain(paper: Paper) -> None:
    """Write something under the questions marked by hand."""
    for cell in paper.notebook.cells:
        marks = cell.metadata.get("nbgrader", {})
        if cell.cell_type == "markdown" and marks.get("solution"):
            cell.source = "The float lifts until what comes in equals what goes out. (Invented.)"


def _foretell(paper: Paper, chance: random.Random) -> None:
    """Predict: half of them rightly at first, most of them at the end; a few leave it open."""
    unit = paper.exercise_set.unit
    for cell in paper.notebook.cells:
        if is_answer(cell, unit):
            name, _, note = cell.source.partition(" = ")
            key = key_to(paper.exercise_set, cell.id.removesuffix("-answer").split("-", 2)[2])
            knows = chance.random() < (0.45 if name.startswith(FIRST_NAME) else 0.85)
            letter = key.right if key and knows else chance.choice("AB")
            if chance.random() < 0.95:
                cell.source = f'{name} = "{letter}"{note[2:]}'


def _right(paper: Paper) -> None:
    _write(paper)


def _other_units(paper: Paper) -> None:
    values = _values(paper, {})
    for exercise in paper.exercise_set:
        same = [u for u in UNITS if dimension_of(u) == dimension_of(exercise.unit)]
        unit = OTHER.get(exercise.unit) or paper.chance.choice(same or [exercise.unit])
        paper.answer(exercise, _written(paper, exercise, values[exercise.id], unit))


def _first_slip(paper: Paper) -> None:
    """Slip where the first chain starts, and carry the wrong value on rightly."""
    first = next(one for one in paper.exercise_set if one.slips)
    _write(paper, {first.id: 0})


def _many_slips(paper: Paper) -> None:
    _write(paper, _some(paper, 0.6))


def _half_blank(paper: Paper) -> None:
    values = _values(paper, _some(paper, 0.3))
    for exercise in paper.exercise_set.exercises[: len(paper.exercise_set.exercises) // 2]:
        paper.answer(exercise, _written(paper, exercise, values[exercise.id]))


def _exception(paper: Paper) -> None:
    _write(paper, _some(paper, 0.2))
    chosen = paper.exercise_set.exercises[1]
    paper.answer(chosen, f"{chosen.variable} = supply / 0")


def _endless(paper: Paper) -> None:
    _write(paper)
    chosen = paper.exercise_set.exercises[-1]
    paper.answer(chosen, "while True:\n    pass")


def _copied(paper: Paper) -> None:
    """Have an answer and its locked cell twice, as pasting does."""
    _write(paper, _some(paper, 0.2))
    first = paper.exercise_set.exercises[0].id
    cells = [copy.deepcopy(paper.cell(name)) for name in (f"{first}-answer", first)]
    for number, cell in enumerate(cells):
        cell.id = f"pasted-{number}"
    paper.notebook.cells += cells


def _broken(paper: Paper) -> str:
    _write(paper)
    text = text_of(paper.notebook)
    return text[: len(text) * 2 // 3]


def _deleted(paper: Paper) -> None:
    _write(paper, _some(paper, 0.3))
    chosen = paper.exercise_set.exercises[1].id
    gone = [paper.cell(f"{chosen}-answer"), paper.cell(chosen)]
    paper.notebook.cells = [cell for cell in paper.notebook.cells if cell not in gone]


def _decimal_comma(paper: Paper) -> None:
    values = _values(paper, _some(paper, 0.2))
    for exercise in paper.exercise_set:
        setting = exercise.form == "setting"
        text = (
            right_answer(exercise, paper.sheet)
            if setting
            else shown_answer(exercise, values[exercise.id])
        )
        text = text.replace(".", ",")
        paper.answer(exercise, f'{exercise.variable} = "{text}"')


def _wrong_dimension(paper: Paper) -> None:
    values = _values(paper, {})
    for count, exercise in enumerate(paper.exercise_set):
        wrong = next(u for u in UNITS if dimension_of(u) != dimension_of(exercise.unit))
        number = from_si(values[exercise.id], exercise.unit)
        kinds = [
            f'Q({number:.4g}, "{wrong}")',
            f"{number:.4g}",
            f'Q({number:.4g}, "{exercise.unit}")',
        ]
        paper.answer(exercise, f"{exercise.variable} = {kinds[count % 3]}")


HABITS: Mapping[str, Habit] = {
    "right": _right,
    "right in other units": _other_units,
    "one slip, carried on": _first_slip,
    "many slips": _many_slips,
    "half of it blank": _half_blank,
    "an exception": _exception,
    "an endless loop": _endless,
    "cells copied": _copied,
    "file broken off": _broken,
    "cells deleted": _deleted,
    "text with decimal commas": _decimal_comma,
    "wrong kinds and no units": _wrong_dimension,
}
"""What the invented trainees do, in the order of the class list."""

"""The instructor's key to one trainee's numbers: answers, what still counts, known slips."""

from collections.abc import Iterator
from dataclasses import dataclass

from fuelcircuits.quantities.trade_units import labelled

from fuelmarks.course.cells import RUBRIC
from fuelmarks.course.course import Course
from fuelmarks.course.directives import Directive, split
from fuelmarks.course.unit_text import filled_text
from fuelmarks.formula.worked import Line
from fuelmarks.marking.adjusting import asked_of
from fuelmarks.marking.worked import worked
from fuelmarks.questions import (
    Adjustment,
    Choice,
    Driven,
    Exercise,
    ExerciseSet,
    Selection,
    Sheet,
)
from fuelmarks.questions.frame.drawing import from_si, margin, right_answer, shown_answer
from fuelmarks.questions.frame.promise import enough

__all__ = ["KeyLine", "WrongValue", "key_lines", "rubrics"]


@dataclass(frozen=True)
class WrongValue:
    """What a known slip comes to with this trainee's numbers, and what it still earns."""

    name: str
    value: str
    points: float
    comment: str


@dataclass(frozen=True)
class KeyLine:
    """One exercise with its answer in the unit asked for."""

    exercise: Exercise
    ask: str
    answer: str
    accepted: str
    promise: str
    worked: tuple[Line, ...]
    slips: tuple[WrongValue, ...]


def key_lines(exercise_set: ExerciseSet, sheet: Sheet) -> Iterator[KeyLine]:
    """Yield the key to every exercise of `sheet`."""
    for one in exercise_set:
        right = sheet.answers[one.id]
        yield KeyLine(
            exercise=one,
            ask=sheet.ask(one.ask),
            answer=right_answer(one, sheet),
            accepted=_accepted(one, sheet, right),
            promise=enough(one),
            worked=tuple(worked(one, sheet)),
            slips=tuple(_wrong_values(one, sheet)),
        )


def rubrics(course: Course, unit: str) -> Iterator[tuple[str, str]]:
    """Yield name and rubric of every question of `unit` that is marked by hand."""
    path = course.text(unit)
    for part in split(filled_text(path, course.root / "rigs"), path):
        if isinstance(part, Directive) and part.kind == "written" and part.body:
            yield part.name, part.body.partition(RUBRIC)[2].strip()
    yield from ((one.id, one.rubric) for one in course.questions(unit).written)


def _wrong_values(exercise: Exercise, sheet: Sheet) -> Iterator[WrongValue]:
    """Yield what each declared slip of `exercise` comes to, but for what is right on this sheet."""
    for slip in exercise.slips:
        wrong = slip.wrong(sheet.givens, sheet.answers)
        if wrong == sheet.answers[exercise.id]:
            continue
        shown = shown_answer(exercise, wrong)
        yield WrongValue(slip.name, shown, slip.share * exercise.points, slip.comment)


def _accepted(exercise: Exercise, sheet: Sheet, right: float) -> str:
    """Return what is still right, in the unit asked for."""
    if isinstance(exercise, Driven):
        return "a share for each limit kept, nothing without the first"
    if isinstance(exercise, Adjustment):
        return "; ".join(asked_of(exercise, sheet.givens))
    if isinstance(exercise, Choice):
        return "that name only"
    if isinstance(exercise, Selection):
        return "these names; more of them earn less"
    around = margin(exercise, right)
    low, high = sorted(from_si(right + side, exercise.unit) for side in (-around, around))
    return f"right from {low:.4g} to {labelled(f'{high:.4g}', exercise.unit)}"

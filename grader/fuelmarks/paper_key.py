"""The instructor's key to one trainee's numbers: answers, what still counts, known slips."""

from collections.abc import Iterator
from dataclasses import dataclass

from fuelmarks.cells import RUBRIC
from fuelmarks.course import Course
from fuelmarks.directives import Directive, split
from fuelmarks.exercises import Exercise, ExerciseSet, Sheet, Shown
from fuelmarks.exercises.drawing import from_si, margin

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
    slips: tuple[WrongValue, ...]


def key_lines(exercise_set: ExerciseSet, sheet: Sheet) -> Iterator[KeyLine]:
    """Yield the key to every exercise of `sheet`."""
    for one in exercise_set:
        right = sheet.answers[one.id]
        around = margin(one, right)
        low, high = sorted((_shown(right - around, one.unit), _shown(right + around, one.unit)))
        yield KeyLine(
            exercise=one,
            ask=sheet.ask(one.ask),
            answer=_shown(right, one.unit).text,
            accepted=f"{low.value:g} to {high.text}",
            slips=tuple(_wrong_values(one, sheet)),
        )


def rubrics(course: Course, unit: str) -> Iterator[tuple[str, str]]:
    """Yield name and rubric of every question of `unit` that is marked by hand."""
    path = course.text(unit)
    for part in split(path.read_text(encoding="utf-8"), path):
        if isinstance(part, Directive) and part.kind == "written":
            yield part.name, part.body.partition(RUBRIC)[2].strip()


def _wrong_values(exercise: Exercise, sheet: Sheet) -> Iterator[WrongValue]:
    """Yield what each declared slip of `exercise` comes to."""
    for slip in exercise.slips:
        wrong = _shown(slip.wrong(sheet.givens, sheet.answers), exercise.unit).text
        yield WrongValue(slip.name, wrong, slip.share * exercise.points, slip.comment)


def _shown(value: float, unit: str) -> Shown:
    """Return an SI number in `unit`, to four figures."""
    return Shown(float(f"{from_si(value, unit):.4g}"), unit)

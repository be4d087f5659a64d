"""Prove an exercise set: every sheet it draws can be marked, and is marked as it should be.

`faults` marks made-up answers over many seeds and yields a sentence for whatever is not so.
"""

import tomllib
from collections.abc import Iterator, Mapping
from functools import cache
from itertools import combinations
from pathlib import Path
from typing import Any

from fuelcircuits.quantities.kinds import dimension_of
from fuelcircuits.quantities.units import registry

from fuelmarks.marking.marking import Marks, mark_sheet
from fuelmarks.questions import Adjustment, Choice, Exercise, ExerciseSet, Selection, Sheet, draw
from fuelmarks.questions.frame.drawing import clash, from_si, right_answer

__all__ = ["UNITS", "faults", "record_of", "unknown_outcomes"]

UNITS = (
    *("N", "lbf", "mN", "mm^2", "in^2", "cm^2", "cm^3", "in^3", "ml", "mm", "in", "cm"),
    *("kg/m^3", "g/cm^3", "lb/ft^3", "g/s", "kg/h", "lb/h", "kPa", "psi", "inHg", "mbar"),
    *("degC", "degF", "K", "percent", "m^3/s", "l/h", "m/s", "ft/s", "s", "min", "g", "lb"),
)
"""Units of the trade in which a reference has to be right, where the dimension is the same."""


def record_of(unit: str, exercise: str, value: float, units: str) -> dict[str, Any]:
    """Return the record a notebook hands over for `value` in `units`."""
    made = {"v": 1, "unit": unit, "exercise": exercise, "kind": "quantity"}
    return made | {"magnitude": value, "units": units, "text": "", "detail": ""}


def faults(exercise_set: ExerciseSet, seeds: range) -> Iterator[str]:
    """Yield what is wrong with the set: nothing, if every sheet is fit to be marked."""
    for seed in seeds:
        sheet = draw(exercise_set, seed)
        found = [*clash(exercise_set, sheet), *_reference(exercise_set, sheet)]
        found += [*_blank(exercise_set, sheet), *_slips(exercise_set, sheet)]
        found += [*_carried(exercise_set, sheet), *_names(exercise_set, sheet)]
        found += _nothing(exercise_set, sheet)
        yield from (f"seed {seed}: {one}" for one in found)


def unknown_outcomes(exercise_set: ExerciseSet, outcomes: Path) -> set[str]:
    """Return the outcome codes of the set that the file `outcomes` does not explain."""
    known = tomllib.loads(outcomes.read_text(encoding="utf-8"))
    return {code for exercise in exercise_set for code in exercise.outcomes} - set(known)


def _marked(
    exercise_set: ExerciseSet, sheet: Sheet, values: Mapping[str, float], unit: str = ""
) -> Marks:
    """Return the marks of the exercises in `values` (SI), in `unit` or each exercise's own."""
    records = {
        name: _handed_over(sheet, exercise_set[name], value, unit) for name, value in values.items()
    }
    return mark_sheet(exercise_set, sheet, records)


def _handed_over(sheet: Sheet, exercise: Exercise, value: float, units: str) -> dict[str, Any]:
    """Return the record of `value` (SI) in `units` or the exercise's own, or of a text."""
    unit = sheet.unit
    if exercise.form != "value":
        if isinstance(exercise, Choice | Selection):
            text = exercise.written(value)
        else:
            text = right_answer(exercise, sheet)
        made = record_of(unit, exercise.id, 0.0, "")
        return made | {"kind": "text", "text": text, "magnitude": None}
    units = units or exercise.unit
    return record_of(unit, exercise.id, from_si(value, units), _spelt(units))


@cache
def _spelt(units: str) -> str:
    """Return a unit as a notebook hands it over."""
    return format(registry.Unit(units), "D")


def _reference(exercise_set: ExerciseSet, sheet: Sheet) -> Iterator[str]:
    """Yield the units in which the reference does not earn full points."""
    whole = _marked(exercise_set, sheet, sheet.answers)
    for one in whole.marks:
        if one.verdict != "right" or one.points != one.out_of:
            yield f"{one.exercise}: the reference earns {one.points:g}, verdict {one.verdict}"
    for unit in UNITS:
        values = {
            exercise.id: sheet.answers[exercise.id]
            for exercise in exercise_set
            if exercise.form == "value" and dimension_of(exercise.unit) == dimension_of(unit)
        }
        if not values:
            continue
        marks = _marked(exercise_set, sheet, values, unit)
        for name in values:
            if marks[name].verdict != "right":
                yield f"{name}: the reference in {unit} is {marks[name].verdict}"


def _blank(exercise_set: ExerciseSet, sheet: Sheet) -> Iterator[str]:
    """Yield a fault if an empty sheet earns anything."""
    if mark_sheet(exercise_set, sheet, {}).points != 0:
        yield "an empty sheet earns points"


def _slips(exercise_set: ExerciseSet, sheet: Sheet) -> Iterator[str]:
    """Yield the slips that marking does not know again."""
    for exercise in exercise_set:
        for slip in exercise.slips:
            value = slip.wrong(sheet.givens, sheet.answers)
            if isinstance(exercise, Choice) and value == sheet.answers[exercise.id]:
                continue
            verdict = _marked(exercise_set, sheet, {exercise.id: value})[exercise.id].verdict
            if verdict != f"slip:{slip.name}":
                yield f"{exercise.id}: slip {slip.name} is marked {verdict}"


def _carried(exercise_set: ExerciseSet, sheet: Sheet) -> Iterator[str]:
    """Yield the steps that do not earn full points after a wrong step handled rightly."""
    for exercise in exercise_set:
        for first in exercise.follows:
            found = [_after(exercise_set, sheet, exercise, first, off) for off in (1.37, 0.73)]
            full = any(one == ("follow-through", exercise.points) for one in found)
            if not full:
                yield f"{exercise.id}: after a wrong {first} it is marked {found[0][0]}"


def _after(
    exercise_set: ExerciseSet, sheet: Sheet, exercise: Exercise, first: str, off: float
) -> tuple[str, float]:
    """Return verdict and points of a step that is right after one that is so many times off."""
    wrong = {first: off * sheet.answers[first]}
    value = exercise.reference(sheet.givens, dict(sheet.answers) | wrong)
    found = _marked(exercise_set, sheet, wrong | {exercise.id: value})[exercise.id]
    return found.verdict, found.points


def _nothing(exercise_set: ExerciseSet, sheet: Sheet) -> Iterator[str]:
    """Yield the questions in which next to nothing, written everywhere, earns points."""
    asked = [one for one in exercise_set if one.form == "value"]
    for value in (1e-30, -1e-30, 0.0):
        marks = _marked(exercise_set, sheet, dict.fromkeys((one.id for one in asked), value))
        yield from (
            f"{one.id}: {value:g} everywhere earns {marks[one.id].points:g} of {one.points} here"
            for one in asked
            if marks[one.id].points
        )


def _names(exercise_set: ExerciseSet, sheet: Sheet) -> Iterator[str]:
    """Yield the wrong options that earn all the points, and what is cheaper than the best."""
    for exercise in exercise_set:
        if isinstance(exercise, Choice):
            yield from _wrong_options(exercise_set, exercise, sheet)
        elif isinstance(exercise, Selection):
            yield from _cheaper(exercise, sheet)
        elif isinstance(exercise, Adjustment):
            yield from _met_already(exercise, sheet)


def _met_already(exercise: Adjustment, sheet: Sheet) -> Iterator[str]:
    """Yield the readings that are as they are wanted before anybody has set anything."""
    left = exercise.left(sheet.givens)
    moved = {name: left[name] for name in exercise.moves}
    for want, read in zip(exercise.wants, exercise.read(sheet.givens, moved), strict=True):
        if abs(want.off(read, sheet.givens)) <= 1:
            yield f"{exercise.id}: {want.reading} is as it is wanted before anything is set"


def _wrong_options(exercise_set: ExerciseSet, exercise: Choice, sheet: Sheet) -> Iterator[str]:
    """Yield the wrong options of a choice that earn as much as the right one."""
    for name in exercise.options:
        value = exercise.number([name])
        earned = _marked(exercise_set, sheet, {exercise.id: value})[exercise.id].points
        if (name,) != exercise.wanted(sheet.givens) and earned >= exercise.points:
            yield f"{exercise.id}: the wrong option {name} earns {earned:g}"


def _cheaper(exercise: Selection, sheet: Sheet) -> Iterator[str]:
    """Yield the options that are enough and cost less than those declared the best."""
    least = exercise.cost(exercise.wanted(sheet.givens))
    for count in range(len(exercise.options) + 1):
        for names in combinations(exercise.options, count):
            if exercise.cost(names) < least and exercise.enough(sheet.givens, frozenset(names)):
                yield f"{exercise.id}: {', '.join(names)} is enough and costs less than the best"

"""Marks from answers: a pure function, run where no trainee's code ever runs."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from fuelcircuits.answer_sheet.refusals import tidy
from fuelcircuits.quantities.kinds import dimension_of, kind_of
from fuelcircuits.quantities.reading import Reading

from fuelmarks.marking.adjusting import adjust
from fuelmarks.marking.answers import Answer, answer_from
from fuelmarks.marking.carrying import Case, Own
from fuelmarks.marking.choosing import choose
from fuelmarks.marking.verdicts import STANDARD_ATMOSPHERE, Finding, judge
from fuelmarks.questions import Adjustment, Choice, Exercise, ExerciseSet, Selection, Sheet, draw
from fuelmarks.questions.frame.drawing import shown_answer
from fuelmarks.questions.frame.promise import enough

__all__ = ["Mark", "Marks", "mark", "mark_sheet"]


@dataclass(frozen=True)
class Mark:
    """What one answer earned, and why.

    `verdict` is one of right, follow-through, slip:<name>, hint:<family>, wrong, implausible,
    wrong-dimension, no-unit, not-a-number, not-a-name, not-a-setting, blank, missing, void.
    `comment` never holds the answer; `study_comment` may. Points come in quarters, so that sums
    are exact.
    """

    exercise: str
    points: float
    out_of: int
    verdict: str
    comment: str
    study_comment: str


@dataclass(frozen=True)
class Marks:
    """The marks of one trainee's sheet, in the order asked."""

    unit: str
    marks: tuple[Mark, ...]

    @property
    def points(self) -> float:
        """Return the points earned."""
        return sum(one.points for one in self.marks)

    @property
    def out_of(self) -> int:
        """Return the points that could be earned."""
        return sum(one.out_of for one in self.marks)

    def __getitem__(self, exercise: str) -> Mark:
        """Return the mark for `exercise`; raise `KeyError` if there is none."""
        return {one.exercise: one for one in self.marks}[exercise]


def mark(
    exercise_set: ExerciseSet,
    seed: int,
    records: Mapping[str, Mapping[str, Any]],
    faults: Mapping[str, str] | None = None,
) -> Marks:
    """Mark `records` (by exercise id) against the sheet that `seed` draws.

    `faults` may say, by exercise id, why no record came: ``timeout``, ``NameError``.
    """
    return mark_sheet(exercise_set, draw(exercise_set, seed), records, faults)


def mark_sheet(
    exercise_set: ExerciseSet,
    sheet: Sheet,
    records: Mapping[str, Mapping[str, Any]],
    faults: Mapping[str, str] | None = None,
) -> Marks:
    """Mark `records` against a sheet that is already drawn; as `mark` in all else."""
    own: dict[str, Own] = {}
    marks = []
    for exercise in exercise_set:
        record = records.get(exercise.id)
        answer = answer_from(record, exercise_set.unit, exercise.id, exercise.form)
        case = Case(exercise_set, exercise, sheet, own)
        finding, value = _found(case, answer, (faults or {}).get(exercise.id, ""), records)
        if value is not None:
            own[exercise.id] = Own(value, finding.verdict == "right")
        marks.append(_mark(exercise, sheet, _void(exercise) or finding))
    return Marks(exercise_set.unit, tuple(marks))


def _found(
    case: Case, answer: Answer, fault: str, records: Mapping[str, Mapping[str, Any]]
) -> tuple[Finding, float | None]:
    """Return the best finding for `answer`, and the SI value it was found for."""
    if answer.state != "read":
        return _nothing(answer, fault), None
    if isinstance(case.exercise, Choice | Selection):
        beside = records.get(getattr(case.exercise, "beside", ""), {}).get("text")
        said = beside if isinstance(beside, str) else ""
        return choose(case.exercise, case.sheet, answer.text, said), None
    if isinstance(case.exercise, Adjustment):
        return adjust(case.exercise, case.sheet, answer.text), None
    found = [_judged(case, reading, answer.rough) for reading in answer.readings]
    return max(found, key=lambda pair: pair[0].share)


def _judged(case: Case, reading: Reading, rough: float) -> tuple[Finding, float | None]:
    """Return the finding for one reading, and its value if it is of the right kind."""
    exercise = case.exercise
    wanted = dimension_of(exercise.unit)
    if reading.dimension != wanted or _another_temperature(exercise, reading):
        return _wrong_kind(exercise, reading), None
    value = _from_datum(exercise, case.sheet, reading)
    return judge(case, value, rough), value


def _void(exercise: Exercise) -> Finding | None:
    """Return the finding for any answer to a question that counts no more."""
    if not exercise.void:
        return None
    return Finding("void", 0.0, f"This question counts for nobody: {exercise.void}")


def _another_temperature(exercise: Exercise, reading: Reading) -> bool:
    """Return whether a difference of temperatures stands where a temperature is asked."""
    return reading.stated == "difference" and exercise.datum != "difference"


def _from_datum(exercise: Exercise, sheet: Sheet, reading: Reading) -> float:
    """Return the reading's value counted from where the question counts."""
    ambient = sheet.givens.get("ambient_pressure", STANDARD_ATMOSPHERE)
    value = reading.magnitude
    if exercise.datum == "difference" and reading.degrees is not None:
        return reading.degrees
    if exercise.datum == "absolute" and reading.stated in ("gauge", "vacuum"):
        return ambient + value if reading.stated == "gauge" else ambient - value
    if exercise.datum == "gauge" and reading.stated in ("absolute", "vacuum"):
        return value - ambient if reading.stated == "absolute" else -value
    return value


def _wrong_kind(exercise: Exercise, reading: Reading) -> Finding:
    """Return the finding for a number without a unit, or with one of another dimension."""
    wanted = dimension_of(exercise.unit)
    asked = kind_of(wanted)
    how = f"give it in {asked.examples}" if wanted else "write it without a unit"
    how += ", or in percent" if exercise.unit == "percent" else ""
    wish = f"Asked is {asked.words}: {how}"
    if reading.bare:
        return Finding("no-unit", 0.0, f"A number alone says nothing on the bench. {wish}.")
    if reading.stated == "difference":
        got = "a difference of temperatures, not a point on the scale"
        return Finding("wrong-dimension", 0.0, f"This is {got}. Write it in degC, degF or K.")
    got = kind_of(reading.dimension).words
    more = POUND if (got, asked.words) == ("a mass", "a force") else ""
    return Finding("wrong-dimension", 0.0, f"This is {got}. {wish}. {more}".strip())


POUND = "A weight in lb or kg is a mass; the force it makes is in lbf or N."


def _nothing(answer: Answer, fault: str) -> Finding:
    """Return the finding for an answer that holds no reading."""
    if answer.state == "missing" and fault:
        return Finding("missing", 0.0, FAULTS.get(fault, f"The cell stopped with {tidy(fault)}."))
    comment = answer.reason or (
        "Nothing was handed over: the cell is missing or was not reached."
        if answer.state == "missing"
        else "Left blank. A try can earn part of the points."
    )
    return Finding(answer.state, 0.0, comment)


FAULTS: Mapping[str, str] = {
    "timeout": "The cell ran too long and was stopped. Look for a loop that never ends.",
    "killed": "The notebook was stopped here: it used more memory or time than it may.",
    "not-reached": "The notebook stopped before this cell. Look at the cell where it stopped.",
    "NameError": "The cell stopped with NameError: a name was used before it got a value.",
    "SyntaxError": "The cell stopped with SyntaxError: look for a missing bracket or quote.",
    "QuantityError": "Two kinds of quantity were added or compared, or a unit is not known.",
}


def _mark(exercise: Exercise, sheet: Sheet, finding: Finding) -> Mark:
    """Return the mark that goes with `finding`, in quarter points."""
    points = math.floor(4 * exercise.points * finding.share + 0.5) / 4
    worked = " ".join(filter(None, (_result(exercise, sheet), enough(exercise), exercise.why)))
    right = finding.verdict == "right"
    hints = () if right else (one for one in exercise.hints if one not in finding.comment)
    study = " ".join((finding.comment, *hints, worked))
    verdict, comment = finding.verdict, finding.comment
    return Mark(exercise.id, points, exercise.points, verdict, comment, study)


def _result(exercise: Exercise, sheet: Sheet) -> str:
    """Return the right answer in a sentence; settings are looked for only where they are shown."""
    if exercise.form == "setting":
        return ""
    return f"Worked answer: {shown_answer(exercise, sheet.answers[exercise.id], digits=3)}."

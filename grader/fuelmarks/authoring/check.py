"""A unit's questions as their author should see them before anybody else does.

Sample sheets with their answers, and question by question what was proved, which slips are kept
and how much of the range they cover, and what the guards found.
"""

from collections.abc import Collection, Iterator
from dataclasses import dataclass

from fuelcircuits.quantities.trade_units import labelled

from fuelmarks.authoring.checker import faults
from fuelmarks.authoring.guards import Remark, remarks
from fuelmarks.formula.kinds import kind_in_words
from fuelmarks.questions import Exercise, ExerciseSet, Sheet, draw
from fuelmarks.questions.frame.drawing import right_answer
from fuelmarks.questions.frame.promise import enough
from fuelmarks.slips.telling import groups_of

__all__ = ["DRAWS", "SAMPLES", "Checked", "checked", "lines"]

SAMPLES = 10
DRAWS = 400
MARKED = 40
"""Sheets that are marked in every way; the others are only drawn."""


@dataclass(frozen=True)
class Checked:
    """What came of checking one unit; `faults` are sentences about whole sheets."""

    exercise_set: ExerciseSet
    sheets: tuple[Sheet, ...]
    remarks: tuple[Remark, ...]
    faults: tuple[str, ...]

    @property
    def sound(self) -> bool:
        """Say whether no fault was found."""
        return not self.faults and not any(one.fault for one in self.remarks)


def checked(
    exercise_set: ExerciseSet, draws: int = DRAWS, strange: Collection[str] = ()
) -> Checked:
    """Return what came of checking `exercise_set` over so many sheets.

    `strange` are codes of outcomes that the course's list does not explain.
    """
    sheets = tuple(draw(exercise_set, seed) for seed in range(draws))
    found = (*remarks(exercise_set, sheets), *_strange(exercise_set, strange))
    return Checked(exercise_set, sheets, found, _once(exercise_set, min(MARKED, draws)))


def _strange(exercise_set: ExerciseSet, strange: Collection[str]) -> Iterator[Remark]:
    """Yield the outcomes of questions that nothing explains."""
    for exercise in exercise_set:
        for code in exercise.outcomes:
            if code in strange:
                words = f"its outcome must be in the list of outcomes, got {code}"
                yield Remark(exercise.id, words, fault=True)


def lines(found: Checked) -> Iterator[str]:
    """Yield what to print, line by line."""
    exercise_set = found.exercise_set
    counting = [one for one in exercise_set if not one.void]
    points = sum(one.points for one in (*exercise_set, *exercise_set.written))
    title = f"{exercise_set.unit}, {exercise_set.title}"
    words = f"{len(counting)} questions, {len(exercise_set.written)} more in words"
    yield f"{title}: {words}, {_points(points)}"
    yield f"numbers on {SAMPLES} sample sheets:"
    for given in exercise_set.givens:
        shown = ", ".join(
            f"{one.givens_shown[given.name].value:g}" for one in found.sheets[:SAMPLES]
        )
        yield f"   {given.name}: {shown} {given.unit}, {given.meaning}"
    for number, exercise in enumerate(exercise_set, 1):
        yield ""
        yield f"{number}. {exercise.id} ({_points(exercise.points)})"
        yield from (f"   {line}" for line in _about(found, exercise))
    for one in exercise_set.written:
        yield ""
        yield f"In words: {one.id} ({_points(one.points)})"
        yield f"   asks: {' '.join(one.ask.split())}"
    if found.faults:
        yield ""
        yield "Faults on sheets:"
        yield from (f"   {one}" for one in found.faults)
    yield ""
    yield _verdict(found)


def _points(points: float) -> str:
    return f"{points:g} point{'' if points == 1 else 's'}"


def _about(found: Checked, exercise: Exercise) -> Iterator[str]:
    """Yield the lines on one question."""
    if exercise.void:
        yield f"counts for nobody: {exercise.void}"
    yield from _samples(found, exercise)
    if exercise.method is not None:
        yield _proved(exercise)
        yield _kept(found.exercise_set, exercise)
    for one in found.remarks:
        if one.question == exercise.id:
            yield f"{'FAULT: ' if one.fault else 'remark: '}{one.words}"


def _samples(found: Checked, exercise: Exercise) -> Iterator[str]:
    """Yield the answers on the sample sheets, and the first of them as it is asked."""
    samples = found.sheets[:SAMPLES]
    yield f"asks: {' '.join(samples[0].ask(exercise.ask).replace('**', '').split())}"
    figures = max(3, exercise.figures)
    answers = "; ".join(right_answer(exercise, one, figures) for one in samples)
    yield f"answers: {answers}"
    if exercise.form == "value":
        most = labelled(f"{exercise.high:g}", exercise.unit)
        yield f"expects: {exercise.low:g} to {most}. {enough(exercise)}"


def _proved(exercise: Exercise) -> str:
    """Return of which kind each step is."""
    assert exercise.method is not None
    kinds = exercise.method.proved()
    return "kinds: " + "; ".join(f"{name} is {kind_in_words(kind)}" for name, kind in kinds.items())


def _kept(exercise_set: ExerciseSet, exercise: Exercise) -> str:
    """Return how many slips are told, and how much of the range they cover."""
    groups = groups_of(exercise_set, exercise.id)
    share = sum(one.cost for one in groups)
    return (
        f"slips: {len(exercise.slips)} in your words; {len(groups)} found by changing the formula, "
        f"which cover {100 * share:.1f} % of the range"
    )


def _once(exercise_set: ExerciseSet, draws: int) -> tuple[str, ...]:
    """Return each fault of the sheets once, with how often it was found."""
    found: dict[str, list[str]] = {}
    for fault in faults(exercise_set, range(draws)):
        seed, _, words = fault.partition(": ")
        found.setdefault(words, []).append(seed)
    return tuple(
        f"{words} ({len(seeds)} times on {draws} sheets, such as {seeds[0]})"
        for words, seeds in found.items()
    )


def _verdict(found: Checked) -> str:
    """Return what came of it, in one line."""
    count = sum(one.fault for one in found.remarks) + len(found.faults)
    others = len(found.remarks) - sum(one.fault for one in found.remarks)
    said = f"{len(found.sheets)} sheets drawn: {count} faults, {others} remarks"
    return f"{said}; fit to be handed out" if found.sound else f"{said}; mend the faults first"

"""A trainee's own numbers, drawn from a seed, the same for ever.

The draw is SHA-256 and integer arithmetic, so that no library version can change it. Numbers
with which a declared slip could not be told from the answer, or with which an answer leaves
the trade's range, are put back and drawn again.
"""

import hashlib
import hmac
import math
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from itertools import combinations
from typing import NamedTuple

from fuelcircuits.errors import CircuitError, ConvergenceError
from fuelcircuits.quantities.trade_units import labelled, scale

from fuelmarks.questions.frame.adjustment import Adjustment
from fuelmarks.questions.frame.choice import Choice, Selection
from fuelmarks.questions.frame.exercise import Exercise, ExerciseSet, Given
from fuelmarks.questions.frame.settling import settled

__all__ = [
    "Sheet",
    "Shown",
    "answer_code",
    "clash",
    "draw",
    "from_si",
    "last_figure",
    "margin",
    "right_answer",
    "right_code",
    "seed_of",
    "shown_answer",
    "to_si",
]

ATTEMPTS = 500
ROUNDED = 0.55
"""Part of a unit of the last figure by which an answer may be off that was rounded to it."""
BARE = ("", "1")
"""How a given says that it has no unit."""


class Shown(NamedTuple):
    """A given as the trainee sees it."""

    value: float
    unit: str

    @property
    def text(self) -> str:
        """Return the given for a sentence: ``5.1 psi``, ``57 per h``."""
        return labelled(f"{self.value:g}", self.unit).replace(" 1/", " per ")

    @property
    def literal(self) -> str:
        """Return the given for a code cell: ``Q(5.1, "psi")``."""
        return f"{self.value:g}" if self.unit in BARE else f'Q({self.value:g}, "{self.unit}")'


@dataclass(frozen=True)
class Sheet:
    """One trainee's numbers for one unit, and the answers that belong to them (SI)."""

    unit: str
    seed: int
    givens_shown: Mapping[str, Shown]
    givens: Mapping[str, float] = field(repr=False)
    answers: Mapping[str, float] = field(repr=False)

    def ask(self, text: str) -> str:
        """Return `text` with every ``{given}`` filled in."""
        return re.sub(
            r"\{(\w+)\}",
            lambda hit: self.givens_shown[hit[1]].text if hit[1] in self.givens_shown else hit[0],
            text,
        )


def seed_of(trainee: str, unit: str, key: str) -> int:
    """Return the seed that belongs to this trainee, unit and term key."""
    digest = hmac.digest(key.encode(), f"{unit}\n{trainee}".encode(), "sha256")
    return int.from_bytes(digest[:8], "big")


def draw(exercise_set: ExerciseSet, seed: int) -> Sheet:
    """Return the sheet of `seed`; raise `ConvergenceError` if no draw is fit to be marked.

    Numbers that were drawn for the set as it was before stay as they are. Where what was added to
    it is fit with none of them, the first numbers that can be worked with are taken.
    """
    before = exercise_set.before
    kept = dict(draw(before, seed).givens_shown) if before else {}
    new = [one for one in exercise_set.givens if one.name not in kept]
    known = {one.id for one in before} if before else set()
    usable: Sheet | None = None
    for attempt in range(ATTEMPTS if new else 1):
        shown = kept | {
            given.name: _pick(given, f"{seed}/{exercise_set.lot}/{given.name}/{attempt}")
            for given in new
        }
        sheet = _worked(
            exercise_set, seed, {one.name: shown[one.name] for one in exercise_set.givens}
        )
        if sheet and not any(name not in known for name, _ in clashes(exercise_set, sheet)):
            return sheet
        usable = usable or sheet
    if before and usable:
        return usable
    raise ConvergenceError(
        f"draw for {exercise_set.unit} must succeed within {ATTEMPTS} attempts, got seed {seed}"
    )


def margin(exercise: Exercise, value: float) -> float:
    """Return how far from `value` (SI) an answer may be and still be that value.

    That is the tolerance, or half a unit of the last figure that is promised to be enough (and a
    little for the one that is kept on the way), or half the step to which the trade rounds:
    whichever is most.
    """
    factor = scale(exercise.unit).factor
    step = abs(exercise.rounded_to * factor)
    figure = abs(last_figure(from_si(value, exercise.unit), exercise.figures) * factor)
    return max(exercise.tolerance * abs(value), 0.5 * step, ROUNDED * figure) * (1 + 1e-9)


def last_figure(number: float, figures: int) -> float:
    """Return what a unit of the last of so many figures of `number` is worth; 0 for nought."""
    return 10.0 ** (math.floor(math.log10(abs(number))) - figures + 1) if number else 0.0


def clash(exercise_set: ExerciseSet, sheet: Sheet) -> Iterator[str]:
    """Yield what makes this sheet unfit: an answer out of range, two results not told apart."""
    return (f"{name}{words}" for name, words in clashes(exercise_set, sheet))


def clashes(exercise_set: ExerciseSet, sheet: Sheet) -> Iterator[tuple[str, str]]:
    """Yield the id of each question for which this sheet is unfit, and why."""
    for exercise in exercise_set:
        if exercise.form != "value":
            continue
        right = sheet.answers[exercise.id]
        if not to_si(exercise.low, exercise.unit) <= right <= to_si(exercise.high, exercise.unit):
            yield exercise.id, " is out of range"
        results = [("answer", right)]
        for slip in exercise.slips:
            results.append((slip.name, slip.wrong(sheet.givens, sheet.answers)))
        for (one, a), (other, b) in combinations(results, 2):
            if not abs(a - b) > margin(exercise, a) + margin(exercise, b):
                yield exercise.id, f": {one} and {other} cannot be told apart"


def shown_answer(exercise: Exercise, value: float, digits: int = 4) -> str:
    """Return an answer as one writes it: the SI number `value` in the unit asked, or names."""
    if isinstance(exercise, Choice | Selection):
        return ", ".join(exercise.names(value))
    return labelled(f"{from_si(value, exercise.unit):.{digits}g}", exercise.unit)


def right_answer(exercise: Exercise, sheet: Sheet, digits: int = 4) -> str:
    """Return the right answer on a sheet as one writes it: a value, names, or settings."""
    if isinstance(exercise, Adjustment):
        found = settled(exercise, sheet.givens)
        return ", ".join(f"{name} = {exercise.dials[name].text(at)}" for name, at in found.items())
    return shown_answer(exercise, sheet.answers[exercise.id], digits)


def right_code(exercise: Exercise, sheet: Sheet, digits: int = 4) -> str:
    """Return the right answer on a sheet as a trainee writes it in a code cell."""
    if exercise.form == "setting":
        return f'"{right_answer(exercise, sheet)}"'
    return answer_code(exercise, sheet.answers[exercise.id], digits)


def answer_code(exercise: Exercise, value: float, digits: int = 4) -> str:
    """Return an answer as a trainee writes it in a code cell."""
    if isinstance(exercise, Choice | Selection):
        text = exercise.written(value)
        return f'"""{text}"""' if '"' in text else f'"{text}"'
    return f'Q({from_si(value, exercise.unit):.{digits}g}, "{exercise.unit}")'


def _pick(given: Given, label: str) -> Shown:
    """Return the value of `given` that belongs to `label`."""
    number = int.from_bytes(hashlib.sha256(label.encode()).digest(), "big")
    return Shown(given.values[number % len(given.values)], given.unit)


def _worked(exercise_set: ExerciseSet, seed: int, shown: Mapping[str, Shown]) -> Sheet | None:
    """Return the sheet with its answers, or None if the physics refuses these numbers."""
    givens = {name: to_si(value, unit) for name, (value, unit) in shown.items()}
    answers: dict[str, float] = {}
    try:
        for exercise in exercise_set:
            answers[exercise.id] = float(exercise.reference(givens, answers))
    except (CircuitError, ArithmeticError, ValueError):
        return None
    return Sheet(exercise_set.unit, seed, shown, givens, answers)


def to_si(value: float, unit: str) -> float:
    """Return `value` in `unit` as a plain SI number."""
    way = scale(unit)
    return way.factor * value + way.offset


def from_si(value: float, unit: str) -> float:
    """Return the plain SI number `value` in `unit`."""
    way = scale(unit)
    return (value - way.offset) / way.factor

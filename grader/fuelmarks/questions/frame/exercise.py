"""What an exercise is: one piece of data and one reference function.

A formula takes the trainee's givens and the earlier answers it builds on, both as plain SI
numbers by name, and returns a plain SI number. A slip is a formula too: a wrong one, declared
so that the trainee who makes it can be told what went wrong.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property
from typing import Literal, TypeAlias

from fuelmarks.formula.method import Method
from fuelmarks.questions.frame.sketch import Sketch

__all__ = [
    "Datum",
    "Exercise",
    "ExerciseSet",
    "Form",
    "Formula",
    "Given",
    "Prediction",
    "Slip",
    "Values",
    "Written",
]

Values: TypeAlias = Mapping[str, float]
Formula: TypeAlias = Callable[[Values, Values], float]
Form: TypeAlias = Literal["value", "name", "setting", "drive"]
"""What an answer is: a value with its unit, names from a list, how a bench is set, or a drive."""
Datum: TypeAlias = Literal["", "absolute", "gauge", "difference"]


@dataclass(frozen=True)
class Given:
    """A number each trainee gets for himself: a choice, or a step on a range, in `unit`.

    One that is `drawn` is shown by a picture alone, and written nowhere.
    """

    name: str
    meaning: str
    unit: str
    low: float = 0.0
    high: float = 0.0
    step: float = 0.0
    choices: tuple[float, ...] = ()
    drawn: bool = False

    @cached_property
    def values(self) -> tuple[float, ...]:
        """Every value that can be drawn, in `unit`, exact in the decimals shown."""
        if self.choices:
            return self.choices
        low, high, step = (Fraction(str(number)) for number in (self.low, self.high, self.step))
        return tuple(float(low + step * count) for count in range(int((high - low) / step) + 1))


@dataclass(frozen=True)
class Slip:
    """A wrong formula people are known to use, the share it still earns, and what to say."""

    name: str
    wrong: Formula
    share: float
    comment: str


@dataclass(frozen=True)
class Exercise:
    """One graded question.

    `low`, `high` and `rounded_to` are in `unit`; `tolerance` is relative, and `rounded_to` is
    the step to which the trade rounds such a number (half of it is always forgiven). `follows`
    names the earlier exercises whose answers the formula uses. `figures` is how many figures are
    enough, `harmless` names rivals of the right answer that may be taken for it. `datum` says
    from where a pressure or a temperature counts, if the question leaves room for a mix-up. `void`
    says why a question counts for nobody; it is then worth nothing. `sketch` is drawn beside it.
    """

    id: str
    ask: str
    unit: str
    reference: Formula
    tolerance: float
    why: str
    low: float
    high: float
    points: int
    outcomes: tuple[str, ...]
    follows: tuple[str, ...] = ()
    slips: tuple[Slip, ...] = ()
    hints: tuple[str, ...] = ()
    rounded_to: float = 0.0
    datum: Datum = ""
    figures: int = 3
    harmless: tuple[str, ...] = ()
    void: str = ""
    sketch: Sketch | None = None

    @property
    def method(self) -> Method | None:
        """The formula by which it is worked out, if it has one."""
        return self.reference if isinstance(self.reference, Method) else None

    @property
    def form(self) -> Form:
        """Return what an answer to it is."""
        return "value"

    @property
    def variable(self) -> str:
        """Return the name the notebook gives this answer."""
        return self.id.replace("-", "_")


@dataclass(frozen=True)
class Written:
    """A question that is answered in words and marked by hand, and what an answer has to say."""

    id: str
    ask: str
    rubric: str
    points: int


@dataclass(frozen=True)
class Prediction:
    """The key to what is asked before anybody has looked: the right letter and why; no marks."""

    id: str
    right: str
    why: str


@dataclass(frozen=True, eq=False)
class ExerciseSet:
    """The givens and the exercises of one unit, in the order they are asked.

    Two sets are the same only if they are one: what is worked out of a set is kept by it. `beside`
    are the ids of those questions that came from a file beside the unit's text, `written` those of
    them that are marked by hand; `void` says of questions marked by hand why they count for nobody.
    `before` is the set as it was when numbers were first drawn: they
    stay as it draws them, and only the numbers that are new are drawn in addition. `predictions`
    are the keys of what is asked before anybody has looked.
    """

    unit: str
    title: str
    givens: tuple[Given, ...]
    exercises: tuple[Exercise, ...]
    first_name: str = ""
    beside: frozenset[str] = frozenset()
    written: tuple[Written, ...] = ()
    void: Mapping[str, str] = field(default_factory=dict)
    before: "ExerciseSet | None" = None
    predictions: tuple[Prediction, ...] = ()

    @property
    def lot(self) -> str:
        """Return the name under which numbers are drawn; a unit renamed keeps its first one."""
        return self.first_name or self.unit

    def __iter__(self) -> Iterator[Exercise]:
        """Run through the exercises in order."""
        return iter(self.exercises)

    def __getitem__(self, name: str) -> Exercise:
        """Return the exercise called `name`; raise `KeyError` if there is none."""
        for exercise in self.exercises:
            if exercise.id == name:
                return exercise
        raise KeyError(f"exercise must be one of {[one.id for one in self]}, got {name!r}")

"""How an answer is worked out: a formula, with all that is known of the names in it."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from fuelmarks.formula.functions import Constant, Table
from fuelmarks.formula.kinds import Kind, kind_of_unit, kinds_of, prove
from fuelmarks.formula.tree import Formula, Step
from fuelmarks.formula.value import Working, working
from fuelmarks.formula.worked import Line, worked_lines

__all__ = ["Method"]


@dataclass(frozen=True, eq=False)
class Method:
    """A formula that can be called as every reference is: with givens and earlier answers in SI.

    Parameters
    ----------
    formula
        The formula.
    unit
        The unit the question asks for.
    units
        The unit of each given and each earlier answer that the formula may name.
    words
        What each of these is, as a phrase that reads in a sentence.
    constants
        Constants of this unit of the course, beside those every formula may name.
    tables
        The tables it may read.
    """

    formula: Formula
    unit: str
    units: Mapping[str, str]
    words: Mapping[str, str]
    constants: Mapping[str, Constant] = field(default_factory=dict)
    tables: Mapping[str, Table] = field(default_factory=dict)

    def __call__(self, given: Mapping[str, float], earlier: Mapping[str, float]) -> float:
        """Return the answer in SI; ids of earlier answers are written with hyphens."""
        return self._worked(self.values(given, earlier))

    @cached_property
    def _worked(self) -> Working:
        return working(self.formula, self.tables)

    def values(self, given: Mapping[str, float], earlier: Mapping[str, float]) -> dict[str, float]:
        """Return every value the formula may name, by name."""
        own = {name: each.value for name, each in self.constants.items()}
        return own | dict(given) | {name.replace("-", "_"): one for name, one in earlier.items()}

    def known_kinds(self) -> dict[str, Kind]:
        """Return the kind of every name from outside."""
        own = {name: each.unit for name, each in self.constants.items()}
        return {name: kind_of_unit(unit) for name, unit in (own | dict(self.units)).items()}

    def proved(self) -> dict[str, Kind]:
        """Return the kind of every step; raise `FormulaError` if the answer is of another kind."""
        return prove(self.formula, self.known_kinds(), self.unit, self.tables)

    def kinds(self) -> dict[str, Kind]:
        """Return the kind of every step, whatever the question asks for."""
        return kinds_of(self.formula, self.known_kinds(), self.tables)

    def lines(self, given: Mapping[str, float], earlier: Mapping[str, float]) -> list[Line]:
        """Return the worked answer in these numbers."""
        own = {name: each.unit for name, each in self.constants.items()}
        return worked_lines(
            self.formula,
            self.values(given, earlier),
            own | dict(self.units),
            self.proved(),
            self.unit,
            tables=self.tables,
        )

    def instead(self, changed: Formula) -> "Method":
        """Return the method with some steps replaced, and new ones put before the next of them."""
        return Method(
            merged(self.formula, changed),
            self.unit,
            self.units,
            self.words,
            self.constants,
            self.tables,
        )


def merged(formula: Formula, changed: Formula) -> Formula:
    """Return `formula` with the steps of `changed` in the place of those of the same name.

    A step whose name is new stands before the next one that replaces another; if none follows,
    it comes last and gives the answer.
    """
    names = [step.name for step in formula.steps]
    steps: list[Step] = list(formula.steps)
    waiting: list[Step] = []
    for step in changed.steps:
        if step.name not in names:
            waiting.append(step)
            continue
        place = next(i for i, old in enumerate(steps) if old.name == step.name)
        steps[place : place + 1] = [*waiting, step]
        waiting = []
    return Formula((*steps, *waiting))

"""Questions that are answered by name: one fault from a list, or the tests worth paying for.

Both are exercises like any other, so a set, a sheet and a gradebook hold them as they hold a
number. Inside a sheet their answer is a number that stands for a set of options: 1 for the
first, 2 for the second, 4 for the third, and the sum where several are named. No other
exercise can follow from them.

A `Choice` is declared so::

    FAULT = Choice(
        id="what-is-wrong",
        ask="Use your readings. What is wrong with this carburettor?",
        options={
            "soaked-float": "the float has drunk fuel and is heavy",
            "worn-needle-seat": "the needle no longer closes",
            "weak-pump": "the fuel pump gives too little pressure",
        },
        right=lambda given: CASES[int(given["case"])],
        near={"worn-needle-seat": (0.25, "Level high, yes. But does it creep up at rest?")},
        why="One fault explains every reading.",
        points=4,
        outcomes=("DIA-1",),
        hints=("Which readings are not as they should be?",),
    )

`right` gets the givens of the sheet in SI and returns a name. A wrong option earns nothing, or
what `near` says: a share and a comment. An option that is right in one sheet may be near in
another.

A `Selection` names several, and each costs something::

    TESTS = Selection(
        id="tests-to-pay-for",
        ask="Which tests tell you what is wrong, at the least cost?",
        options={"level": "measure the level (5 min)", "pressure": "gauge the pump (8 min)"},
        costs={"level": 5, "pressure": 8},
        cost_unit="min",
        best=lambda given: ("level",),
        enough=lambda given, chosen: "level" in chosen,
        why="A test is worth its cost if its result could change your mind.",
        points=3,
        outcomes=("DIA-2",),
    )

`enough` says whether the chosen tests tell it, `best` which are the cheapest that do. Chosen
tests that tell it earn the cost of the best over their own cost; tests that do not, nothing.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import TypeAlias

from fuelmarks.questions.frame.exercise import Exercise, Form, Formula, Slip, Values

__all__ = ["Choice", "Near", "Selection"]

Near: TypeAlias = tuple[float, str]
"""The share a wrong option still earns, and what to say about it."""


@dataclass(frozen=True, kw_only=True)
class _Named(Exercise):
    """An exercise that is answered by the names of `options`: name and plain words for each."""

    unit: str = field(default="", init=False)
    tolerance: float = field(default=0.0, init=False)
    low: float = field(default=0.0, init=False)
    high: float = field(default=0.0, init=False)
    reference: Formula = field(init=False, repr=False, compare=False)
    options: Mapping[str, str]

    def __post_init__(self) -> None:
        """Work out what every exercise has from what was declared."""
        self._set("high", float(2 ** len(self.options)))
        self._set("reference", lambda given, earlier: self.number(self.wanted(given)))

    @property
    def form(self) -> Form:
        """Return that it is answered by name."""
        return "name"

    def wanted(self, given: Values) -> tuple[str, ...]:
        """Return the names that are right with these givens."""
        raise NotImplementedError

    def number(self, names: Iterable[str]) -> float:
        """Return the number that stands for `names`; raise `ValueError` if one is unknown."""
        listed = list(self.options)
        return float(sum(2 ** listed.index(name) for name in set(names)))

    def names(self, number: float) -> tuple[str, ...]:
        """Return the names that `number` stands for."""
        return tuple(name for at, name in enumerate(self.options) if int(number) >> at & 1)

    def written(self, number: float) -> str:
        """Return the text of an answer that names what `number` stands for."""
        return ", ".join(self.names(number))

    def _set(self, name: str, value: object) -> None:
        """Set a field while the exercise is being made."""
        object.__setattr__(self, name, value)


Against: TypeAlias = Callable[[Values, str, frozenset[str]], str]


@dataclass(frozen=True, kw_only=True)
class Choice(_Named):
    """A question answered by one name; see the top of this file."""

    slips: tuple[Slip, ...] = field(default=(), init=False, repr=False)
    right: Callable[[Values], str]
    near: Mapping[str, Near] = field(default_factory=dict)
    beside: str = ""
    """The question whose named options say what the trainee has looked at, if there is one."""
    against: Against | None = None
    """What speaks against a wrong option, from what the trainee has looked at."""

    def __post_init__(self) -> None:
        """Make a slip of every near option."""
        super().__post_init__()
        self._set("slips", tuple(self._slip(name, *near) for name, near in self.near.items()))

    def wanted(self, given: Values) -> tuple[str, ...]:
        """Return the one name that is right."""
        return (self.right(given),)

    def _slip(self, name: str, share: float, comment: str) -> Slip:
        """Return a near option as a slip."""
        number = self.number([name])
        return Slip(name, lambda given, earlier: number, share, comment)


@dataclass(frozen=True, kw_only=True)
class Selection(_Named):
    """A question answered by several names, each at a cost; see the top of this file."""

    costs: Mapping[str, float]
    together: Callable[[Iterable[str]], float] | None = None
    """What names cost together, where that is not the sum of their costs."""
    cost_unit: str
    best: Callable[[Values], tuple[str, ...]]
    enough: Callable[[Values, frozenset[str]], bool]

    def wanted(self, given: Values) -> tuple[str, ...]:
        """Return the cheapest names that are enough."""
        return self.best(given)

    def cost(self, names: Iterable[str]) -> float:
        """Return what `names` cost together."""
        if self.together is not None:
            return self.together(set(names))
        return sum(self.costs[name] for name in set(names))

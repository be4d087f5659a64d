"""The proof that a formula gives the kind of quantity that is asked for."""

from collections.abc import Mapping
from fractions import Fraction
from functools import cache
from typing import TypeAlias

from fuelcircuits.quantities.kinds import dimension_of

from fuelmarks.formula.functions import CONSTANTS, Table
from fuelmarks.formula.grammar import FormulaError
from fuelmarks.formula.tree import Call, Formula, Name, Node, Number, Power, Product, Step, Sum

__all__ = ["PLAIN", "Kind", "kind_in_words", "kind_of_node", "kind_of_unit", "kinds_of", "prove"]

Kind: TypeAlias = tuple[Fraction, ...]
"""Powers of length, mass, time and temperature."""

_BASES = ("[length]", "[mass]", "[time]", "[temperature]")
_WORDS = ("length", "mass", "time", "temperature")
PLAIN: Kind = (Fraction(0),) * 4
"""The kind of a plain number; angles are plain numbers too."""


@cache
def kind_of_unit(unit: str) -> Kind:
    """Return the kind of a unit; raise `UnitError` for an unknown one."""
    powers = dict(dimension_of(unit)) if unit not in ("", "1") else {}
    return tuple(Fraction(powers.get(base, 0)).limit_denominator(1000) for base in _BASES)


def kind_in_words(kind: Kind) -> str:
    """Return a kind for a message: ``mass length time^-2``."""
    parts = [
        word if power == 1 else f"{word}^{power}"
        for word, power in zip(_WORDS, kind, strict=True)
        if power
    ]
    return " ".join(parts) or "a plain number"


def prove(
    formula: Formula,
    kinds: Mapping[str, Kind],
    unit: str,
    tables: Mapping[str, Table] | None = None,
) -> dict[str, Kind]:
    """Return the kind of every step, if the last is that of `unit`.

    Parameters
    ----------
    formula
        The formula.
    kinds
        The kind of each name it needs, constants aside.
    unit
        The unit the question asks for.
    tables
        The tables it may read.

    Raises
    ------
    FormulaError
        If a name is unknown or hides a constant, unlike terms are added, a function is given
        what has a unit, or another kind comes out than is asked for.
    """
    found = kinds_of(formula, kinds, tables)
    last = formula.steps[-1]
    if found[last.name] != kind_of_unit(unit):
        raise FormulaError(
            f"formula must give {kind_in_words(kind_of_unit(unit))}, as {unit or 'no unit'} asks, "
            f"got {kind_in_words(found[last.name])}"
        )
    return found


def kinds_of(
    formula: Formula, kinds: Mapping[str, Kind], tables: Mapping[str, Table] | None = None
) -> dict[str, Kind]:
    """Return the kind of every step; raise `FormulaError` as `prove` does."""
    known = {name: kind_of_unit(each.unit) for name, each in CONSTANTS.items()} | dict(kinds)
    for step in formula.steps:
        if step.name in known:
            raise FormulaError(f"step must have a name of its own, got {step.name}")
        known[step.name] = _Prover(step, known, tables or {}).kind(step.node)
    return {step.name: known[step.name] for step in formula.steps}


def kind_of_node(
    node: Node, kinds: Mapping[str, Kind], tables: Mapping[str, Table] | None = None
) -> Kind:
    """Return the kind of one node; raise `FormulaError` as `prove` does."""
    return _Prover(Step("step", node, ""), kinds, tables or {}).kind(node)


class _Prover:
    """Works out the kind of the nodes of one step."""

    def __init__(self, step: Step, known: Mapping[str, Kind], tables: Mapping[str, Table]) -> None:
        self.step, self.known, self.tables = step, known, tables

    def kind(self, node: Node) -> Kind:
        """Return the kind of `node`, or raise `FormulaError`."""
        match node:
            case Number():
                return PLAIN
            case Name(name):
                return self._named(name)
            case Sum(terms):
                return self._alike([self.kind(each) for _, each in terms])
            case Product(factors):
                return _multiplied([(way, self.kind(each)) for way, each in factors])
            case Power(base, exponent):
                power = Fraction(exponent).limit_denominator(1000)
                return tuple(power * each for each in self.kind(base))
            case Call(function, arguments):
                return self._called(function, self.kind(arguments[0]))

    def _named(self, name: str) -> Kind:
        if name not in self.known:
            listed = ", ".join(sorted(self.known))
            raise FormulaError(f"{self.step.name} must use known names ({listed}), got {name}")
        return self.known[name]

    def _alike(self, kinds: list[Kind]) -> Kind:
        for other in kinds[1:]:
            if other != kinds[0]:
                pair = f"{kind_in_words(kinds[0])} and {kind_in_words(other)}"
                raise FormulaError(f"{self.step.name} must add and subtract like kinds, got {pair}")
        return kinds[0]

    def _called(self, function: str, kind: Kind) -> Kind:
        if function in self.tables:
            table = self.tables[function]
            self._wanted(function, kind, kind_of_unit(table.place_unit))
            return kind_of_unit(table.value_unit)
        if function == "circle":
            return tuple(2 * each for each in kind)
        if function == "bore_of":
            return tuple(each / 2 for each in kind)
        self._wanted(function, kind, PLAIN)
        return kind_of_unit("m") if function == "drill" else PLAIN

    def _wanted(self, function: str, kind: Kind, wanted: Kind) -> None:
        if kind != wanted:
            raise FormulaError(
                f"{self.step.name} must give {function} {kind_in_words(wanted)}, "
                f"got {kind_in_words(kind)}"
            )


def _multiplied(factors: list[tuple[int, Kind]]) -> Kind:
    """Return the kind of a product."""
    return tuple(
        sum((way * kind[place] for way, kind in factors), start=Fraction(0)) for place in range(4)
    )

"""What a formula comes to: every node becomes a plain function, built once and called often."""

from collections.abc import Callable, Mapping
from typing import TypeAlias

from fuelmarks.formula.functions import CONSTANTS, FUNCTIONS
from fuelmarks.formula.tree import Call, Formula, Name, Node, Number, Power, Product, Sum

__all__ = ["Working", "steps_of", "working"]

Values: TypeAlias = Mapping[str, float]
Working: TypeAlias = Callable[[Values], float]
Functions: TypeAlias = Mapping[str, Callable[[float], float]]


def working(formula: Formula, extra: Functions | None = None) -> Working:
    """Return a function that works `formula` out from the values (SI) of the names it needs.

    It raises `ArithmeticError` or `ValueError` where these values make no number.
    """
    steps = [(step.name, node_working(step.node, extra)) for step in formula.steps]
    constants = {name: each.value for name, each in CONSTANTS.items()}
    last = formula.steps[-1].name

    def worked(values: Values) -> float:
        known = {**constants, **values}
        for name, work in steps:
            known[name] = work(known)
        return known[last]

    return worked


def steps_of(formula: Formula, values: Values, extra: Functions | None = None) -> dict[str, float]:
    """Return the value of every step by name."""
    known = {name: each.value for name, each in CONSTANTS.items()} | dict(values)
    for step in formula.steps:
        known[step.name] = node_working(step.node, extra)(known)
    return {step.name: known[step.name] for step in formula.steps}


def node_working(node: Node, extra: Functions | None = None) -> Working:
    """Return a function that works one node out."""
    match node:
        case Number(value):
            return lambda known: value
        case Name(name):
            return lambda known: known[name]
        case Sum(terms):
            return _sum([(sign, node_working(each, extra)) for sign, each in terms])
        case Product(factors):
            return _product([(way, node_working(each, extra)) for way, each in factors])
        case Power(base, exponent):
            return _power(node_working(base, extra), exponent)
        case Call(function, arguments):
            return _call(
                {**FUNCTIONS, **(extra or {})}[function], node_working(arguments[0], extra)
            )


def _sum(terms: list[tuple[int, Working]]) -> Working:
    return lambda known: sum(sign * work(known) for sign, work in terms)


def _product(factors: list[tuple[int, Working]]) -> Working:
    def worked(known: Values) -> float:
        made = 1.0
        for way, work in factors:
            made = made * work(known) if way > 0 else made / work(known)
        return made

    return worked


def _power(base: Working, exponent: float) -> Working:
    def worked(known: Values) -> float:
        below = base(known)
        if below < 0.0 and exponent != int(exponent):
            raise ValueError("a root must be of no negative number")
        return float(below**exponent)

    return worked


def _call(function: Callable[[float], float], argument: Working) -> Working:
    return lambda known: function(argument(known))

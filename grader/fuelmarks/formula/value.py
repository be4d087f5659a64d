"""What a formula comes to: code is written from its nodes, compiled once and called often.

Nothing of the author's text gets into that code: names are looked up by their own text as a key,
numbers are written anew, and functions are those of `functions` or a question's own tables.
"""

import math
from collections.abc import Callable, Mapping
from typing import Any, TypeAlias

from fuelmarks.formula.functions import CONSTANTS, FUNCTIONS
from fuelmarks.formula.tree import Call, Formula, Name, Node, Number, Power, Product, Step, Sum

__all__ = ["Values", "Working", "node_working", "steps_of", "working"]

Values: TypeAlias = Mapping[str, float]
Working: TypeAlias = Callable[[Values], float]
Functions: TypeAlias = Mapping[str, Callable[[float], float]]


def working(formula: Formula, extra: Functions | None = None) -> Working:
    """Return a function that works `formula` out from the values (SI) of the names it needs.

    It raises `ArithmeticError` or `ValueError` where these values make no number.
    """
    made: Working = _compiled(formula, extra or {}, f"step{len(formula.steps) - 1}")
    return made


def steps_of(formula: Formula, values: Values, extra: Functions | None = None) -> dict[str, float]:
    """Return the value of every step by name."""
    every = "".join(f"step{place}, " for place in range(len(formula.steps)))
    found = _compiled(formula, extra or {}, f"({every})")(values)
    return {step.name: value for step, value in zip(formula.steps, found, strict=True)}


def node_working(node: Node, extra: Functions | None = None) -> Working:
    """Return a function that works one node out."""
    return working(Formula((Step("", node, ""),)), extra)


def _compiled(formula: Formula, extra: Functions, result: str) -> Callable[[Values], Any]:
    """Return a function of the values that works every step out and returns `result`."""
    writer = _Writer(formula, extra)
    lines = [f"    step{place} = {writer.code(step.node, place)}" for place, step in writer.places]
    source = "\n".join(["def worked(values):", *lines, f"    return {result}"])
    exec(compile(source, "<formula>", "exec"), writer.known)
    found: Callable[[Values], Any] = writer.known["worked"]
    return found


class _Writer:
    """Writes the code of nodes; `known` is what that code may call."""

    def __init__(self, formula: Formula, extra: Functions) -> None:
        self.places = list(enumerate(formula.steps))
        self.functions = {**FUNCTIONS, **extra}
        self.known: dict[str, Any] = {"__builtins__": {}, "pow": math.pow}

    def code(self, node: Node, step: int) -> str:
        """Return the code of a node in the step at a place."""
        match node:
            case Number(value):
                return repr(value)
            case Name(name):
                return self._named(name, step)
            case Sum(terms):
                parts = [f"{'+' if sign > 0 else '-'} {self.code(n, step)}" for sign, n in terms]
                return f"(0.0 {' '.join(parts)})"
            case Product(factors):
                parts = [f"{'*' if way > 0 else '/'} {self.code(n, step)}" for way, n in factors]
                return f"(1.0 {' '.join(parts)})"
            case Power(base, exponent):
                return f"pow({self.code(base, step)}, {exponent!r})"
            case Call(function, arguments):
                return self._called(function, self.code(arguments[0], step))

    def _named(self, name: str, step: int) -> str:
        """Return the code of a name: a step before this one, a constant, or a value by its key."""
        place = next((at for at, each in reversed(self.places[:step]) if each.name == name), None)
        if place is not None:
            return f"step{place}"
        if name in CONSTANTS:
            return f"values.get({name!r}, {CONSTANTS[name].value!r})"
        return f"values[{name!r}]"

    def _called(self, function: str, argument: str) -> str:
        """Return the code of a call, of a function that is known by a number of its own."""
        key = f"function{list(self.functions).index(function)}"
        self.known[key] = self.functions[function]
        return f"{key}({argument})"

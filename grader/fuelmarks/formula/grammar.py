"""Read a formula: one step a line, ``name = expression  # in words``.

Python's own parser takes the text apart, and what it finds is turned into the nodes of `tree` or
refused: the author's text is never evaluated. An expression holds numbers, names, + - * /, a
power (``**`` or ``^``) by a number, brackets, and calls of the functions listed in `functions`.
"""

import ast

from fuelcircuits.errors import CircuitError

from fuelmarks.formula.functions import FUNCTIONS
from fuelmarks.formula.tree import Call, Formula, Name, Node, Number, Power, Product, Step, Sum

__all__ = ["DEEPEST", "GREATEST", "GREATEST_POWER", "LONGEST", "FormulaError", "read"]

LONGEST = 1000
"""Characters in a formula."""
DEEPEST = 40
"""Brackets in one another."""
GREATEST_POWER = 12.0
GREATEST = 1e30
"""The greatest number that may be written."""


class FormulaError(CircuitError):
    """A formula cannot be used; the message names the step, the rule and what stands there."""


def read(text: str, extra: frozenset[str] = frozenset()) -> Formula:
    """Return the formula in `text`; `extra` names functions beside the usual ones, as tables.

    Raises
    ------
    FormulaError
        If the text is no formula: which line, which rule, and what stands there.
    """
    if len(text) > LONGEST:
        raise FormulaError(f"formula must have at most {LONGEST} characters, got {len(text)}")
    lines = [line for line in text.splitlines() if line.strip()]
    if not lines:
        raise FormulaError("formula must have at least one line such as force = a * b, got none")
    steps = tuple(_step(line, number, extra) for number, line in enumerate(lines, 1))
    _once({*extra, *FUNCTIONS}, steps)
    return Formula(steps)


def _once(taken: set[str], steps: tuple[Step, ...]) -> None:
    """Raise if two steps bear one name, or a step that of a function."""
    for step in steps:
        if step.name in taken:
            raise FormulaError(f"step must have a name of its own, got {step.name} again")
        taken.add(step.name)


def _step(line: str, number: int, extra: frozenset[str]) -> Step:
    """Return the step on one line."""
    code, _, words = line.partition("#")
    try:
        body = ast.parse(code.strip().replace("^", "**")).body
    except (SyntaxError, ValueError, MemoryError, RecursionError):
        raise FormulaError(f"line {number} must read name = expression, got {_cut(code)}") from None
    match body:
        case [ast.Assign(targets=[ast.Name(id=name)], value=value)]:
            reader = _Reader(f"line {number}", extra)
            return Step(name, reader.node(value, 0), words.strip() or name.replace("_", " "))
    raise FormulaError(f"line {number} must read name = expression, got {_cut(code)}")


def _cut(text: str) -> str:
    """Return the beginning of `text` for a message."""
    text = " ".join(text.split())
    return text if len(text) <= 60 else f"{text[:57]}..."


class _Reader:
    """Turns what Python's parser found on one line into nodes."""

    def __init__(self, where: str, extra: frozenset[str]) -> None:
        self.where, self.extra = where, extra

    def refused(self, rule: str, found: ast.AST) -> FormulaError:
        """Return the error for something that may not stand in a formula."""
        return FormulaError(f"{self.where} {rule}, got {_cut(ast.unparse(found))}")

    def node(self, found: ast.expr, depth: int) -> Node:
        """Return the node for `found`, which stands within so many others."""
        if depth > DEEPEST:
            rule = f"must have at most {DEEPEST} brackets and signs in one another"
            raise FormulaError(f"{self.where} {rule}, got more")
        match found:
            case ast.Constant(value=int() | float() as value) if not isinstance(value, bool):
                return self._number(value, found)
            case ast.Name(id=name):
                return Name(name)
            case ast.UnaryOp(op=ast.USub(), operand=operand):
                return Sum(((-1, self.node(operand, depth + 1)),))
            case ast.UnaryOp(op=ast.UAdd(), operand=operand):
                return self.node(operand, depth + 1)
            case ast.BinOp():
                return self._pair(found, depth + 1)
            case ast.Call():
                return self._call(found, depth + 1)
        rule = "may hold numbers, names, + - * / ** and the known functions only"
        raise self.refused(rule, found)

    def _number(self, value: float, found: ast.expr) -> Number:
        if value > GREATEST:
            raise FormulaError(
                f"{self.where} must hold no number above {GREATEST:g}, got a greater"
            )
        return Number(float(value))

    def _pair(self, found: ast.BinOp, depth: int) -> Node:
        if isinstance(found.op, ast.Pow):
            return Power(self.node(found.left, depth), self._exponent(found.right))
        if not isinstance(found.op, ast.Add | ast.Sub | ast.Mult | ast.Div):
            raise self.refused("may calculate with + - * / ** only", found)
        left, right = self.node(found.left, depth), self.node(found.right, depth)
        if isinstance(found.op, ast.Add | ast.Sub):
            before = left.terms if isinstance(left, Sum) else ((1, left),)
            return Sum((*before, (1 if isinstance(found.op, ast.Add) else -1, right)))
        way = 1 if isinstance(found.op, ast.Mult) else -1
        before = left.factors if isinstance(left, Product) else ((1, left),)
        return Product((*before, *_turned(right, way)))

    def _exponent(self, found: ast.expr) -> float:
        """Return an exponent: a number, with a sign or as a fraction of two."""
        match found:
            case ast.Constant(value=int() | float() as value) if not isinstance(value, bool):
                exponent = float(value)
            case ast.UnaryOp(op=ast.USub(), operand=ast.Constant(value=int() | float() as value)):
                exponent = -float(value)
            case ast.BinOp(
                left=ast.Constant(value=int() | float() as above),
                op=ast.Div(),
                right=ast.Constant(value=int() | float() as below),
            ) if below:
                exponent = above / below
            case _:
                raise self.refused("must have a plain number for exponent", found)
        if not abs(exponent) <= GREATEST_POWER:
            raise self.refused(f"must have an exponent of at most {GREATEST_POWER:g}", found)
        return exponent

    def _call(self, found: ast.Call, depth: int) -> Node:
        name = found.func.id if isinstance(found.func, ast.Name) else ""
        if found.keywords or not (name in FUNCTIONS or name in self.extra):
            known = ", ".join(sorted((*FUNCTIONS, *self.extra)))
            raise self.refused(f"must call one of {known}", found)
        if len(found.args) != 1:
            raise self.refused(f"must call {name} with one value", found)
        inner = self.node(found.args[0], depth)
        return Power(inner, 0.5) if name == "sqrt" else Call(name, (inner,))


def _turned(node: Node, way: int) -> tuple[tuple[int, Node], ...]:
    """Return the factors of `node` as they stand above or below the line."""
    if isinstance(node, Product):
        return tuple((way * each, factor) for each, factor in node.factors)
    return ((way, node),)

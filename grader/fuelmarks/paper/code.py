"""Code cells on paper: what a cell works out is written as sums to do by hand."""

import ast
import re
from collections.abc import Iterator
from typing import NamedTuple

from fuelmarks.questions import Shown

__all__ = ["Sum", "sums"]


class Sum(NamedTuple):
    """One line: a name, what it is worked out from, a remark, and whether to leave room."""

    name: str
    working: str
    remark: str
    open: bool


def sums(source: str) -> Iterator[Sum]:
    """Yield a line for each value that the code of a cell gives a name to.

    A literal quantity is a given; ``...`` and everything computed leaves room for the result,
    but a car or a bench that is made is no result.
    Code that Python itself cannot read, such as a notebook's own commands, yields nothing.
    """
    try:
        body = ast.parse(source).body
    except SyntaxError:
        return
    lines = source.splitlines()
    for node in body:
        if isinstance(node, ast.Assign):
            remark = lines[(node.end_lineno or 1) - 1].partition("#")[2].strip()
            for target, value in _pairs(node.targets[0], node.value):
                if not _makes_a_thing(value):
                    yield _sum(target, value, remark)


def _pairs(target: ast.expr, value: ast.expr) -> Iterator[tuple[ast.expr, ast.expr]]:
    """Yield names and values, those of ``a, b = 1, 2`` one by one."""
    if isinstance(target, ast.Tuple) and isinstance(value, ast.Tuple):
        yield from zip(target.elts, value.elts, strict=True)
    else:
        yield target, value


def _makes_a_thing(value: ast.expr) -> bool:
    """Return whether code makes something that paper has not: a car, a bench."""
    called = ast.unparse(value.func) if isinstance(value, ast.Call) else ""
    return called[:1].isupper() and called != "Q"


def _sum(target: ast.expr, value: ast.expr, remark: str) -> Sum:
    """Return the line for one name and its value."""
    name = ast.unparse(target).replace("_", " ")
    if isinstance(value, ast.Constant):
        given = "" if value.value is ... else str(value.value)
        return Sum(name, given, remark, not given)
    if given := _quantity(value):
        return Sum(name, given, remark, False)
    return Sum(name, _written(value), remark, True)


def _quantity(node: ast.expr) -> str:
    """Return ``Q(5.1, "psi")`` as one writes it, 5.1 psi; nothing if `node` is not that."""
    if not (isinstance(node, ast.Call) and ast.unparse(node.func) == "Q" and len(node.args) == 2):
        return ""
    number, unit = (part.value if isinstance(part, ast.Constant) else None for part in node.args)
    if not isinstance(number, int | float) or not isinstance(unit, str):
        return ""
    return Shown(number, unit.replace("**", "^")).text


class _Words(ast.NodeTransformer):
    """Puts words in the place of quantities."""

    def visit_Call(self, node: ast.Call) -> ast.AST:
        """Return a literal quantity as one name in brackets."""
        given = _quantity(node)
        return ast.Name(f"({given})") if given else self.generic_visit(node)


def _written(value: ast.expr) -> str:
    """Return an expression as one writes it on paper."""
    text = ast.unparse(_Words().visit(value)).replace("_", " ")
    text = text.replace(" ** 2", "²").replace(" ** 3", "³").replace(" ** ", "^")
    return re.sub(r"\bpi\b", "π", text.replace(" * ", " × "))

"""Worked examples: the code of a unit run from top to bottom, for what each cell prints."""

import ast
import io
from collections.abc import Mapping
from contextlib import redirect_stdout
from pathlib import Path
from typing import Any

from fuelcircuits import Q, read_rig
from IPython.lib.pretty import pretty

__all__ = ["Examples"]

GAP = "..."
"""What stands in a cell where a trainee fills something in; such a cell is not run."""


class Examples:
    """The cells of one unit, which share their names.

    Parameters
    ----------
    rig
        The spec card of the rig that the unit is about.
    givens
        The numbers of the one who reads, as code.
    """

    def __init__(self, rig: Path, givens: Mapping[str, str]) -> None:
        self._names: dict[str, Any] = {"Q": Q, "rig": read_rig(rig)}
        for name, code in givens.items():
            self._names[name] = eval(code, {"Q": Q})

    def shown(self, code: str) -> str:
        """Run a cell, and return what a notebook shows below it; nothing for one with gaps."""
        if GAP in code:
            return ""
        tree, said, last = ast.parse(code), io.StringIO(), None
        closing = tree.body.pop() if isinstance(tree.body[-1], ast.Expr) else None
        with redirect_stdout(said):
            exec(compile(tree, "example", "exec"), self._names)
            if isinstance(closing, ast.Expr):
                last = eval(compile(ast.Expression(closing.value), "example", "eval"), self._names)
        return said.getvalue() + ("" if last is None else _told(last))


def _told(value: Any) -> str:
    """Return a value as text; several are parted by commas."""
    parts = value if isinstance(value, tuple) else (value,)
    return ", ".join(pretty(each) for each in parts)  # type: ignore[no-untyped-call]

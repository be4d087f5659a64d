"""Notebooks in the open format of Jupyter: making cells, reading, and writing in one piece.

nbformat writes what people read. To load it takes longer than to mark ten notebooks, so what
marking needs of the format, version 4.5, stands here.
"""

import json
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any, Literal, TypeAlias

from fuelmarks.course.whole_file import put_whole

__all__ = [
    "KERNEL",
    "KINDS",
    "Kind",
    "NotebookNode",
    "grade_id",
    "new_cell",
    "nodes",
    "notebook",
    "read",
    "short_text_of",
    "text_of",
    "write",
]

KERNEL = {
    "kernelspec": {"display_name": "Python 3", "language": "python", "name": "python3"},
    "language_info": {"name": "python"},
}
"""What every notebook says of the Python it runs in."""
KINDS = ("code", "markdown", "raw")
Kind: TypeAlias = Literal["code", "markdown", "raw"]
FORMAT = 4
TEXTS = ("application/javascript", "image/svg+xml")
"""What else than ``text/...`` may be told line by line."""


class NotebookNode(dict[str, Any]):
    """A part of a notebook: a dict whose entries are attributes too, as nbformat has it."""

    def __getattr__(self, name: str) -> Any:
        """Return an entry; raise `AttributeError` if there is none."""
        try:
            return self[name]
        except KeyError:
            raise AttributeError(name) from None

    def __setattr__(self, name: str, value: Any) -> None:
        """Set an entry."""
        self[name] = value

    def __setitem__(self, name: str, value: Any) -> None:
        """Set an entry; a dict becomes a node."""
        super().__setitem__(name, nodes(value) if type(value) is dict else value)


def nodes(held: Any) -> Any:
    """Return what is `held` with every dict in it, all the way down, as a node."""
    if isinstance(held, dict):
        return NotebookNode({name: nodes(one) for name, one in held.items()})
    return [nodes(one) for one in held] if isinstance(held, list) else held


def new_cell(
    kind: str, source: str, *, name: str = "unnamed", metadata: Mapping[str, Any] | None = None
) -> NotebookNode:
    """Return a new cell, sound by construction: a class has tens of thousands of them."""
    cell: dict[str, Any] = {
        "cell_type": kind,
        "id": name,
        "metadata": nodes(dict(metadata or {})),
        "source": source,
    }
    if kind == "code":
        cell |= {"execution_count": None, "outputs": []}
    return NotebookNode(cell)


def notebook(cells: Sequence[NotebookNode], metadata: Mapping[str, Any]) -> NotebookNode:
    """Return a notebook of `cells`."""
    whole = {"nbformat": FORMAT, "nbformat_minor": 5, "cells": list(cells)}
    return NotebookNode({**whole, "metadata": nodes(dict(metadata))})


def read(path: Path) -> NotebookNode:
    """Return the notebook at `path`, one that we wrote; texts come whole, not line by line.

    Raises `ValueError` if it is not JSON, or no notebook of version 4.
    """
    held = json.loads(path.read_text(encoding="utf-8"), object_hook=NotebookNode)
    if not isinstance(held, NotebookNode) or held.get("nbformat") != FORMAT:
        raise ValueError(f"nbformat must be {FORMAT}, got {held!r:.60}")
    for cell in held.cells:
        cell.source = _whole(cell.source)
        for output in cell.get("outputs", []):
            if "text" in output:
                output.text = _whole(output.text)
            _join_lines(output.get("data", {}))
        for picture in cell.get("attachments", {}).values():
            _join_lines(picture)
    return held


def _join_lines(data: NotebookNode) -> None:
    """Make a whole text of each that may be told line by line."""
    for kind, told in data.items():
        if kind.startswith("text/") or kind in TEXTS:
            data[kind] = _whole(told)


def _whole(text: Any) -> Any:
    """Return a text that may be told line by line as one."""
    return "".join(text) if isinstance(text, list) else text


def text_of(notebook: NotebookNode) -> str:
    """Return `notebook` as the text of a file that people read, line by line, by nbformat."""
    from nbformat.v4 import writes_json  # noqa: PLC0415 - takes a second to load

    return f"{writes_json(notebook)}\n"  # type: ignore[no-untyped-call]


def short_text_of(notebook: NotebookNode) -> str:
    """Return `notebook` as a file on one line, in a sixth of the time that `text_of` takes."""
    return json.dumps(notebook, ensure_ascii=False, sort_keys=True, separators=(",", ":")) + "\n"


def write(notebook: NotebookNode, path: Path, mode: int = 0o644) -> None:
    """Write `notebook` to `path`: what lies there is the old file or the new one, never half."""
    put_whole(path, text_of(notebook).encode(), mode)


def grade_id(cell: Mapping[str, Any]) -> str:
    """Return the name nbgrader gave `cell`, or nothing; `cell` may have any shape."""
    found: Any = cell
    for key in ("metadata", "nbgrader", "grade_id"):
        found = found.get(key) if isinstance(found, dict) else None
    return found if isinstance(found, str) else ""

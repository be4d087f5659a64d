"""Notebooks as nbformat keeps them: making cells, reading, and writing in one piece."""

import json
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any, Literal, TypeAlias, cast

from fuelcircuits.quantities.without import without

from fuelmarks.course.whole_file import put_whole

with without("rfc3987_syntax"):  # a grammar of addresses, a second to load, for a format's checks
    from nbformat import NotebookNode
    from nbformat.notebooknode import from_dict
    from nbformat.v4 import reads_json, writes_json

__all__ = [
    "KERNEL",
    "KINDS",
    "Kind",
    "NotebookNode",
    "grade_id",
    "new_cell",
    "notebook",
    "plain_text",
    "read",
    "short_text_of",
    "text_of",
    "with_text",
    "write",
]

KERNEL = {
    "kernelspec": {"display_name": "Python 3", "language": "python", "name": "python3"},
    "language_info": {"name": "python"},
}
"""What every notebook says of the Python it runs in."""
KINDS = ("code", "markdown", "raw")
Kind: TypeAlias = Literal["code", "markdown", "raw"]


def new_cell(
    kind: str, source: str, *, name: str = "unnamed", metadata: Mapping[str, Any] | None = None
) -> NotebookNode:
    """Return a new cell, sound by construction: a class has tens of thousands of them."""
    cell: dict[str, Any] = {
        "cell_type": kind,
        "id": name,
        "metadata": _node(metadata or {}),
        "source": source,
    }
    if kind == "code":
        cell |= {"execution_count": None, "outputs": []}
    return NotebookNode(cell)  # type: ignore[no-untyped-call]


def with_text(cell: NotebookNode, source: str) -> NotebookNode:
    """Return `cell` with another text; all else of it is shared."""
    return NotebookNode({**cell, "source": source})  # type: ignore[no-untyped-call]


def notebook(cells: Sequence[NotebookNode], metadata: Mapping[str, Any]) -> NotebookNode:
    """Return a notebook of `cells`."""
    whole = {"nbformat": 4, "nbformat_minor": 5, "cells": list(cells)}
    return NotebookNode({**whole, "metadata": _node(metadata)})  # type: ignore[no-untyped-call]


def read(path: Path) -> NotebookNode:
    """Return the notebook at `path`, one that we wrote."""
    return cast(NotebookNode, reads_json(path.read_text(encoding="utf-8")))  # type: ignore[no-untyped-call]


def text_of(notebook: NotebookNode) -> str:
    """Return `notebook` as the text of a file."""
    return cast(str, writes_json(notebook)) + "\n"  # type: ignore[no-untyped-call]


def short_text_of(notebook: NotebookNode) -> str:
    """Return `notebook` as a file on one line, in a sixth of the time that `text_of` takes."""
    return json.dumps(notebook, ensure_ascii=False, sort_keys=True, separators=(",", ":")) + "\n"


def write(notebook: NotebookNode, path: Path, mode: int = 0o644) -> None:
    """Write `notebook` to `path`: what lies there is the old file or the new one, never half."""
    put_whole(path, text_of(notebook).encode(), mode)


def plain_text(text: str) -> str:
    """Return `text` with a question mark for each half of a sign, which no file can hold."""
    return text.encode("utf-8", "replace").decode()


def grade_id(cell: Mapping[str, Any]) -> str:
    """Return the name nbgrader gave `cell`, or nothing; `cell` may have any shape."""
    found: Any = cell
    for key in ("metadata", "nbgrader", "grade_id"):
        found = found.get(key) if isinstance(found, dict) else None
    return found if isinstance(found, str) else ""


def _node(metadata: Mapping[str, Any]) -> Any:
    """Return `metadata` as nbformat wants it, all the way down."""
    return from_dict(dict(metadata))  # type: ignore[no-untyped-call]

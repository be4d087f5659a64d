"""Notebooks as nbformat keeps them: making cells, reading, and writing in one piece."""

import os
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any, Literal, TypeAlias, cast

import nbformat
from nbformat import NotebookNode
from nbformat.v4 import new_code_cell, new_markdown_cell, new_notebook, new_raw_cell

__all__ = ["Kind", "NotebookNode", "grade_id", "new_cell", "notebook", "read", "text_of", "write"]

Kind: TypeAlias = Literal["code", "markdown", "raw"]
NEW: Mapping[str, Any] = {
    "code": new_code_cell,
    "markdown": new_markdown_cell,
    "raw": new_raw_cell,
}


def new_cell(kind: str, source: str, **rest: Any) -> NotebookNode:
    """Return a new cell."""
    return cast(NotebookNode, NEW[kind](source, **rest))


def notebook(cells: Sequence[NotebookNode], metadata: Mapping[str, Any]) -> NotebookNode:
    """Return a notebook of `cells`."""
    return cast(NotebookNode, new_notebook(cells=list(cells), metadata=metadata))  # type: ignore[no-untyped-call]


def read(path: Path) -> NotebookNode:
    """Return the notebook at `path`, one that we wrote."""
    return cast(NotebookNode, nbformat.read(path, as_version=4))  # type: ignore[no-untyped-call]


def text_of(notebook: NotebookNode) -> str:
    """Return `notebook` as the text of a file."""
    return cast(str, nbformat.writes(notebook)) + "\n"  # type: ignore[no-untyped-call]


def write(notebook: NotebookNode, path: Path, mode: int = 0o644) -> None:
    """Write `notebook` to `path`: what lies there is the old file or the new one, never half."""
    part = path.with_suffix(".part")
    part.unlink(missing_ok=True)
    part.write_text(text_of(notebook), encoding="utf-8")
    part.chmod(mode)
    os.replace(part, path)


def grade_id(cell: Mapping[str, Any]) -> str:
    """Return the name nbgrader gave `cell`, or nothing; `cell` may have any shape."""
    found: Any = cell
    for key in ("metadata", "nbgrader"):
        found = found.get(key) if isinstance(found, Mapping) else None
    name = found.get("grade_id") if isinstance(found, Mapping) else None
    return name if isinstance(name, str) else ""

"""The answer in words, wherever in the notebook it was written.

People write under the question, in a new cell, in a code cell, or in a second copy of the answer
cell. As long as the answer cell is as it was handed out, their text is looked for there.
"""

import ast
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from fuelmarks.course.notebook import NotebookNode
from fuelmarks.gradebook.pictures import pictures_in

__all__ = ["Found", "Named", "plain", "written_answers"]

SCHEME = "=== BEGIN MARK SCHEME"
ELSEWHERE = "(Found elsewhere in the notebook.)"
Named = Sequence[tuple[str, Any]]


@dataclass
class Found:
    """An answer found outside its cell: text, pictures, and the places it was taken from."""

    text: str = ""
    pictures: dict[str, dict[str, str]] = field(default_factory=dict)
    places: set[int] = field(default_factory=set)


def written_answers(
    named: Named, frame: Mapping[str, NotebookNode], handed_out: Sequence[NotebookNode]
) -> dict[str, Found]:
    """Return by name the written answers that stand outside the cells meant for them."""
    known = {plain(cell.source) for cell in handed_out} | {""}
    ids = {cell.get("id") for cell in handed_out}
    found = {}
    for name, cell in frame.items():
        if not (cell.cell_type == "markdown" and cell.metadata.nbgrader.solution):
            continue
        first = next((one["source"] for given, one in named if given == name), "")
        if plain(first) in known:
            answer = _near(named, name, frame, known) or _far(named, known, ids)
            if answer:
                found[name] = answer
    return found


def plain(text: str) -> str:
    """Return `text` without the spaces and lines that programs add or drop."""
    return " ".join(text.split())


def _near(
    named: Named, name: str, frame: Mapping[str, NotebookNode], known: set[str]
) -> Found | None:
    """Return what stands under the question and in the cells after it, if there is anything."""
    found, parts = Found(), []
    for at, cell in _around(named, name):
        if named[at][0] == f"{name}-ask":
            text = _below(cell["source"], frame[f"{name}-ask"].source)
        else:
            text = cell["source"] if _is_words(cell) and plain(cell["source"]) not in known else ""
            found.places |= {at} if text else set()
        if text.strip():
            parts.append(text.strip())
            found.pictures |= pictures_in(cell.get("attachments"))
    found.text = "\n\n".join(parts)
    return found if parts else None


def _around(named: Named, name: str) -> Iterator[tuple[int, Any]]:
    """Yield the cells from a question to the next cell with another name, the answer's included."""
    own, within = (f"{name}-ask", name), False
    for at, (given, cell) in enumerate(named):
        within = given in own or (within and not given)
        if within:
            yield at, cell


def _far(named: Named, known: set[str], ids: set[Any]) -> Found | None:
    """Return the trainee's own text from anywhere in the notebook, if there is any."""
    own = [
        cell
        for given, cell in named
        if not given and cell["cell_type"] != "code" and cell.get("id") not in ids
    ]
    parts = [cell for cell in own if plain(cell["source"]) not in known]
    if not parts:
        return None
    found = Found("\n\n".join([ELSEWHERE, *(cell["source"].strip() for cell in parts)]))
    for cell in parts:
        found.pictures |= pictures_in(cell.get("attachments"))
    return found


def _below(source: str, asked: str) -> str:
    """Return what was written under a question into its own cell."""
    words = asked.partition(SCHEME)[0].split()
    own = source.partition(SCHEME)[0]
    question = re.match(r"\s*" + r"\s+".join(map(re.escape, words)), own)
    return own[question.end() :] if question else ""


def _is_words(cell: Mapping[str, Any]) -> bool:
    """Return whether a cell holds text: any but code, and code that Python cannot read."""
    if cell["cell_type"] != "code" or cell["source"].lstrip()[:1] in ("%", "!"):
        return bool(cell["cell_type"] != "code")
    try:
        ast.parse(cell["source"])
    except (SyntaxError, ValueError, RecursionError, MemoryError):
        return True
    return False

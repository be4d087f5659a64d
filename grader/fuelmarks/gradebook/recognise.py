"""Find the cells that were handed out in a notebook whose marks another program took away.

nbgrader knows a cell by its metadata. Where that is gone, the cell's own id is tried, then what
it says: the heading of a question, ``hand_over`` with unit and name, the name that an answer
sets, and where a written answer stands.
"""

import re
from collections.abc import Iterable, Mapping
from typing import Any

from fuelmarks.course.notebook import NotebookNode, grade_id
from fuelmarks.gradebook.claim import BEGIN, HANDS_OVER, question_in
from fuelmarks.gradebook.written_answer import plain

__all__ = ["named_cells", "prose"]

CARD = re.compile(r"^\s*%%writefile\s+\S+\.toml\b")
BENCH = re.compile(r"^(\w+)_bench = ", re.M)


def named_cells(
    cells: Iterable[Any], frame: Mapping[str, NotebookNode], others: frozenset[str]
) -> list[tuple[str, Any]]:
    """Return the cells, each with the name of the one in `frame` it is, or with no name.

    `others` are the texts that were handed out in cells without a name.
    """
    held = list(cells)
    names = _by_marks(held, frame)
    for tell in (_by_id, _by_text):
        for number, cell in enumerate(held):
            name = "" if names[number] else tell(cell, frame)
            if name and name not in names:
                names[number] = name
    for name in frame:
        if name not in names and (at := _answer(held, names, frame[name], others)) is not None:
            names[at] = name
    return list(zip(names, held, strict=True))


def prose(cells: Iterable[NotebookNode]) -> frozenset[str]:
    """Return the texts of the cells that were handed out without a name."""
    return frozenset(plain(cell.source) for cell in cells if not grade_id(cell))


def _by_marks(cells: list[Any], frame: Mapping[str, NotebookNode]) -> list[str]:
    """Return the names in the cells' marks; of copies the first in which something was written."""
    copies: dict[str, list[int]] = {}
    for number, cell in enumerate(cells):
        copies.setdefault(grade_id(cell), []).append(number)
    names = [""] * len(cells)
    for name in copies.keys() & frame.keys():
        blank = ("", plain(frame[name].source))
        written = [at for at in copies[name] if plain(cells[at]["source"]) not in blank]
        answer = frame[name].metadata.nbgrader.solution and written
        names[(answer or copies[name])[0]] = name
    return names


def _by_id(cell: Any, frame: Mapping[str, NotebookNode]) -> str:
    """Return the name that the cell's own id carries."""
    name = cell.get("id")
    known = isinstance(name, str) and name in frame
    return name if known and frame[name].cell_type == cell["cell_type"] else ""


def _by_text(cell: Any, frame: Mapping[str, NotebookNode]) -> str:
    """Return the name of the locked cell that says the same; nothing for an answer."""
    number = next(iter(frame), "").partition("-")[0]
    if cell["cell_type"] != "code":
        name = f"{number}-{asked}-ask" if (asked := question_in(cell)) else ""
    elif hit := HANDS_OVER.search(cell["source"]):
        name = f"{number}-{hit[2]}"
    elif BEGIN.search(cell["source"]):
        name = f"{number}-begin"
    elif hit := BENCH.search(cell["source"]):
        name = f"{number}-{hit[1].replace('_', '-')}-bench"
    else:
        name = f"{number}-card" if CARD.match(cell["source"]) else ""
    return name if name in frame else ""


def _answer(
    cells: list[Any], names: list[str], wanted: NotebookNode, others: frozenset[str]
) -> int | None:
    """Return where the answer stands that `wanted` is the frame of; None if it is not there."""
    if not wanted.metadata.nbgrader.solution:
        return None
    name = grade_id(wanted)
    between = _after(names, f"{name.removesuffix('-answer')}-ask")
    if wanted.cell_type == "markdown":
        texts = [at for at in between if cells[at]["cell_type"] != "code"]
        return next((at for at in texts if plain(cells[at]["source"]) not in others), None)
    variable = name.partition("-")[2].removesuffix("-answer").replace("-", "_")
    sets = re.compile(rf"^[ \t]*{re.escape(variable)}[ \t]*(:[^=\n]+)?=(?!=)", re.M)
    anywhere = [at for at, taken in enumerate(names) if not taken]
    places = [at for at in (*between, *anywhere) if cells[at]["cell_type"] == "code"]
    return next((at for at in places if sets.search(cells[at]["source"])), None)


def _after(names: list[str], ask: str) -> range:
    """Return the places of the cells without a name that follow the question `ask`."""
    if ask not in names:
        return range(0)
    first = names.index(ask) + 1
    last = next((at for at in range(first, len(names)) if names[at]), len(names))
    return range(first, last)

"""Read what a trainee sent back, whatever it is, and put it in order before it is run.

Nothing of a returned notebook is kept but the kind and the text of its cells, and the names of
the cells that were handed out. Copied, deleted, moved, unlocked and retyped cells are set right:
the cells that were handed out stand in their order, locked ones with the text they had. A cell
whose name another program took away is found again, and so is an answer written elsewhere.
"""

import json
import os
import stat
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

from fuelmarks.course.course import CourseError
from fuelmarks.course.notebook import (
    KINDS,
    NotebookNode,
    grade_id,
    new_cell,
    notebook,
    plain_text,
)
from fuelmarks.course.whole_file import open_strangers
from fuelmarks.gradebook.pictures import pictures_in
from fuelmarks.gradebook.recognise import named_cells, prose
from fuelmarks.gradebook.written_answer import Found, written_answers

__all__ = [
    "LARGEST",
    "MISSING",
    "SubmissionError",
    "notebook_in",
    "plain_file",
    "put_in_order",
    "read_submission",
]

LARGEST = 20 << 20
MOST_CELLS = 2000
MISSING = "# This cell was missing; it was put back empty."


class SubmissionError(CourseError):
    """A returned notebook cannot be read; the message says why."""


def read_submission(path: Path) -> tuple[bytes, NotebookNode]:
    """Return the bytes of the notebook at `path` and the notebook they hold.

    Raises `SubmissionError` if it is not a plain file, too large, or not a notebook.
    """
    raw = plain_file(path)
    return raw, notebook_in(raw, path.name)


def notebook_in(raw: bytes, name: str) -> NotebookNode:
    """Return the notebook that the bytes of the file called `name` hold.

    Raises `SubmissionError` if they hold none.
    """
    try:
        found = json.loads(raw)
    except (ValueError, RecursionError) as error:
        raise SubmissionError(f"{name} must be a whole notebook, got a damaged file") from error
    cells = found.get("cells") if isinstance(found, dict) else None
    if not isinstance(cells, list):
        raise SubmissionError(f"{name} must be a notebook with a list of cells, got none")
    if len(cells) > MOST_CELLS:
        raise SubmissionError(f"{name} must have {MOST_CELLS} cells or fewer, got {len(cells)}")
    return notebook([_clean(cell) for cell in cells if isinstance(cell, dict)], {})


def put_in_order(cells: Iterable[Any], handed_out: NotebookNode) -> NotebookNode:
    """Return the notebook to run: the trainee's `cells` on the frame of what was `handed_out`."""
    frame = {grade_id(cell): cell for cell in handed_out.cells if grade_id(cell)}
    named = named_cells(cells, frame, prose(handed_out.cells))
    written = written_answers(named, frame, handed_out.cells)
    taken = {at for found in written.values() for at in found.places}
    groups: dict[str, list[NotebookNode]] = {"": []}
    last = ""
    for at, (name, cell) in enumerate(named):
        if name and name not in groups:
            last, groups[name] = name, [_framed(cell, frame[name])]
        elif at not in taken:
            groups[last].append(_free(cell))
    ordered = list(groups[""])
    for name, cell in frame.items():
        first, *rest = groups.get(name, [_put_back(cell)])
        ordered += [_answered(first, cell, written.get(name)), *rest]
    for number, cell in enumerate(ordered):
        cell.id = grade_id(cell) or f"free-{number:04}"
    return notebook(ordered, handed_out.metadata)


def _answered(cell: NotebookNode, frame: NotebookNode, found: Found | None) -> NotebookNode:
    """Return `cell` with the written answer that was `found` for it; empty is as handed out."""
    if found:
        answer = _like(frame, found.text)
        if found.pictures:
            answer["attachments"] = found.pictures
        return answer
    words = cell.cell_type == "markdown" and frame.metadata.nbgrader.solution
    return _put_back(frame) if words and not cell.source.strip() else cell


def plain_file(path: Path) -> bytes:
    """Return the bytes of `path`, which must be a file of sensible size and not a link.

    Raises `SubmissionError` if it is not.
    """
    try:
        handle = open_strangers(path)
    except OSError as error:
        raise SubmissionError(f"{path.name} must be a plain file, got: {error.strerror}") from error
    about = os.fstat(handle)
    if not stat.S_ISREG(about.st_mode):
        os.close(handle)
        raise SubmissionError(f"{path.name} must be a plain file, got another kind")
    with os.fdopen(handle, "rb") as file:
        if about.st_size > LARGEST:
            megabytes, most = about.st_size / 1e6, LARGEST / 1e6
            raise SubmissionError(
                f"{path.name} must be smaller than {most:.0f} MB, got {megabytes:.0f} MB"
            )
        return file.read(LARGEST)


def _clean(cell: Mapping[str, Any]) -> NotebookNode:
    """Return a sound cell with the kind, the text and the name that `cell` claims to have."""
    source = cell.get("source", "")
    if isinstance(source, list):
        source = "".join(line for line in source if isinstance(line, str))
    text = source if isinstance(source, str) else ""
    kind = cell.get("cell_type")
    known = kind if isinstance(kind, str) and kind in KINDS else "raw"
    marks = {"nbgrader": {"grade_id": grade_id(cell)}} if grade_id(cell) else {}
    clean = new_cell(known, plain_text(text), metadata=marks)
    if isinstance(cell.get("id"), str):
        clean.id = cell["id"]
    return _with_pictures(clean, cell)


def _framed(cell: Mapping[str, Any], frame: NotebookNode) -> NotebookNode:
    """Return `cell` with the kind and marks of `frame`, and its text too where that is locked."""
    locked = frame.metadata.nbgrader.locked
    if locked:
        return _like(frame, frame.source)
    return _with_pictures(_like(frame, str(cell["source"])), cell)


def _put_back(frame: NotebookNode) -> NotebookNode:
    """Return the cell that stands for a missing `frame`; an answer comes back without code."""
    answer = frame.cell_type == "code" and frame.metadata.nbgrader.solution
    return _like(frame, MISSING if answer else frame.source)


def _like(frame: NotebookNode, source: str) -> NotebookNode:
    """Return a new cell of the kind and with the marks of `frame`."""
    marks = {"nbgrader": dict(frame.metadata.nbgrader)}
    return new_cell(frame.cell_type, source, metadata=marks)


def _free(cell: Mapping[str, Any]) -> NotebookNode:
    """Return a cell of the trainee's own, without marks."""
    return _with_pictures(new_cell(cell["cell_type"], cell["source"]), cell)


def _with_pictures(cell: NotebookNode, returned: Mapping[str, Any]) -> NotebookNode:
    """Return `cell` with the pictures pasted into it, if it is text."""
    if cell.cell_type == "markdown" and (found := pictures_in(returned.get("attachments"))):
        cell["attachments"] = found
    return cell

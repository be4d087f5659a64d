"""A box of returned work: notebooks of a small class, changed and packed as people do it."""

import copy
import io
import json
import os
import zipfile
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from fuelmarks.course.course import Course

from tests.small_unit import UNIT

__all__ = ["Box", "Notebook", "Text", "replaced", "zipped"]

Notebook = dict[str, Any]
Text = str | bytes
DUE = datetime(2026, 11, 10, 12, tzinfo=UTC)
"""Until when the class may hand in."""


@dataclass
class Box:
    """Where returned work is put; `before` is what was collected earlier, `root` what is next."""

    course: Course
    root: Path
    before: list[Path] = field(default_factory=list)
    when: datetime | None = None

    def notebook(self, trainee: str, answer: str = "3 mm2", words: str = "") -> Notebook:
        """Return the notebook handed out to `trainee`, with an answer, and words if there are."""
        found: Notebook = json.loads(self.course.notebook("handout", UNIT, trainee).read_text())
        if answer:
            self.cell(found, "90-seat-area-answer")["source"] = f'seat_area = "{answer}"'
        if words:
            self.cell(found, "90-say-it")["source"] = words
        return found

    def text(self, trainee: str, answer: str = "3 mm2", words: str = "") -> str:
        """Return a worked notebook as the text of a file."""
        return json.dumps(self.notebook(trainee, answer, words))

    def cell(self, notebook: Notebook, name: str) -> dict[str, Any]:
        """Return the cell called `name`."""
        cells: list[dict[str, Any]] = notebook["cells"]
        return next(cell for cell in cells if cell["id"] == name)

    def put(self, name: str, what: Notebook | Text, day: int = 9, hour: int = 12) -> Path:
        """Put a file into the box, last changed on a day of the month."""
        path = self.root / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(packed(what))
        self.date(path, day, hour)
        return path

    def date(self, path: Path, day: int, hour: int = 12) -> None:
        """Have a file last changed on a day of the month."""
        stamp = datetime(2026, 11, day, hour, tzinfo=UTC).timestamp()
        os.utime(path, (stamp, stamp))

    def earlier(self, name: str, what: Notebook | Text, day: int = 9) -> None:
        """Have something collected before the box is."""
        self.root, later = self.root.with_name(f"earlier-{len(self.before)}"), self.root
        self.put(name, what, day)
        self.before.append(self.root)
        self.root = later


def packed(what: Notebook | Text) -> bytes:
    """Return a notebook, or a text, as bytes."""
    if isinstance(what, bytes):
        return what
    return (what if isinstance(what, str) else json.dumps(what)).encode()


def zipped(
    members: Mapping[str, Notebook | Text],
    change: Callable[[zipfile.ZipInfo], object] = lambda one: None,
) -> bytes:
    """Return a zip of `members`, packed on the ninth at noon; `change` edits each entry."""
    raw = io.BytesIO()
    with zipfile.ZipFile(raw, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, what in members.items():
            one = zipfile.ZipInfo(name, (2026, 11, 9, 12, 0, 0))
            one.compress_type = zipfile.ZIP_DEFLATED
            change(one)
            archive.writestr(one, packed(what))
    return raw.getvalue()


def replaced(notebook: Notebook, old: str, new: str) -> Notebook:
    """Return a copy of `notebook` with `old` replaced by `new` in the source of every cell."""
    found = copy.deepcopy(notebook)
    for cell in found["cells"]:
        cell["source"] = "".join(cell["source"]).replace(old, new)
    return found

"""The notebook for an owner's car: not marked, no trainee's numbers, the card to be filled in."""

import dataclasses
import re
import typing
from collections.abc import Iterator
from pathlib import Path

import jupytext
from fuelcircuits.physics.network.rig import Rig

from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.notebook import KERNEL, NotebookNode, new_cell, notebook, write

__all__ = ["NAME", "build_own_car", "own_car_notebook"]

NAME = "own-car"
TEMPLATE = "plover"
CARD = ":::{card}\n:::"


def build_own_car(course: Course) -> Path:
    """Build the notebook from its text into the release folder and return its path.

    Raises `CourseError` if the text or the card it begins with is not there.
    """
    path = course.root / "release" / NAME / f"{NAME}.ipynb"
    made = own_car_notebook(course)
    path.parent.mkdir(parents=True, exist_ok=True)
    write(made, path)
    return path


def own_car_notebook(course: Course) -> NotebookNode:
    """Return the notebook; the cell that writes the card begins as the teaching rig's."""
    text = course.root / NAME / f"{NAME}.md"
    if not text.is_file():
        raise CourseError(f"course must hold the owner's notebook, got no file {text}")
    before, found, after = text.read_text(encoding="utf-8").partition(CARD)
    if not found:
        raise CourseError(f"{text}: text must have one {CARD.splitlines()[0]}, got none")
    head, tail = (jupytext.reads(part, fmt="md:myst").cells for part in (before, after.strip()))
    cells = [*head, new_cell("code", _card(course)), *tail]
    return notebook(
        [
            new_cell(cell.cell_type, cell.source, name=f"{NAME}-{at:02}")
            for at, cell in enumerate(cells)
            if cell.source.strip()
        ],
        KERNEL,
    )


def _card(course: Course) -> str:
    """Return the cell that writes the owner's card."""
    card = (course.root / "rigs" / f"{TEMPLATE}.toml").read_text(encoding="utf-8").strip()
    own = re.sub(r"^name = .*$", 'name = "my-car"', card, count=1, flags=re.M)
    own = re.sub(
        r"^note = .*$",
        'note = "Begun from a teaching rig that we invented."',
        own,
        count=1,
        flags=re.M,
    )
    return "\n".join(["%%writefile my-car.toml", *_explained(own)])


def _explained(card: str) -> Iterator[str]:
    """Yield the lines of a card, behind each entry what it means."""
    section = ""
    sections = typing.get_type_hints(Rig)
    for line in card.splitlines():
        section = line.strip("[]") if line.startswith("[") else section
        name = line.partition(" = ")[0]
        fields = dataclasses.fields(sections[section]) if section else ()
        meant = [one.metadata["meaning"] for one in fields if one.name == name]
        yield "  # ".join([line, *meant])

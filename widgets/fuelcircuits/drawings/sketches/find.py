"""A section with one part marked, to be named."""

from dataclasses import replace

from fuelcircuits.drawings.legend import Side
from fuelcircuits.drawings.picture import Picture
from fuelcircuits.drawings.sections import SECTIONS
from fuelcircuits.physics.network.rig import Rig

__all__ = ["find", "findable"]


def findable(name: str, rig: Rig) -> tuple[str, ...]:
    """Return the ids of the parts that a section names, in its order."""
    return tuple(one.part for one in SECTIONS[name][1](rig).named)


def find(name: str, rig: Rig, part: str) -> Picture:
    """Return the section `name` with nothing named and one part marked.

    Raises
    ------
    KeyError
        If the section has no such part.
    """
    title, scene = SECTIONS[name]
    sheet = scene(rig)
    marked = [one for one in sheet.named if one.part == part]
    if not marked:
        raise KeyError(part)
    sheet.named = [replace(marked[0], number="?", name="this part", side=_side(marked[0].side))]
    return sheet.picture(f"{title} of {rig.name}, cut open, one part of it marked")


def _side(side: Side) -> Side:
    """Return a side at which a name can stand."""
    return "left" if side in ("left", "top") else "right"

"""The labelled section that a unit's text asks for with ``:::{section} off-idle``."""

from pathlib import Path

from fuelcircuits.cards import read_rig
from fuelcircuits.drawings.picture import Picture
from fuelcircuits.drawings.sections import SECTIONS, section

from fuelmarks.course.directives import Directive

__all__ = ["PLOVER", "section_picture"]

PLOVER = "plover"
"""The rig that is drawn where a text names none."""


def section_picture(asked: Directive, rigs: Path, link: str = "") -> Picture:
    """Return the drawing that a directive asks for, of a rig among the cards in `rigs`.

    `link` is where a number leads to, with ``RIG`` for the rig's name and ``{}`` for the part's.

    Raises `CourseError` for a section or a rig that there is not, and for words inside.
    """
    if asked.name not in SECTIONS:
        raise asked.refuse(f"section must be one of {', '.join(SECTIONS)}", asked.name)
    if asked.body:
        raise asked.refuse("section must be empty, since its names come from the parts", asked.body)
    rig = asked.options.get("rig", PLOVER)
    known = sorted(card.stem for card in rigs.glob("*.toml"))
    if rig not in known:
        raise asked.refuse(f"rig must be one of {', '.join(known)}", rig)
    return section(asked.name, read_rig(rigs / f"{rig}.toml"), link.replace("RIG", rig))

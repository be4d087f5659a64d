"""The atlas of a carburettor as a page of its own: for a phone at the bench, and for paper."""

from pathlib import Path

from fuelcircuits.cards import read_rig
from fuelcircuits.drawings.atlas import Atlas
from markupsafe import Markup

from fuelmarks.course.course import Course
from fuelmarks.course.templates import templates

__all__ = ["atlas_html", "write_atlas"]


def atlas_html(card: Path) -> str:
    """Return the atlas of the carburettor whose spec card is the file `card`.

    Raises `CardError` for a card that cannot be read, or is not whole.
    """
    rig = read_rig(card)
    page = templates().get_template("paper/atlas.html.j2")
    return page.render(name=rig.name, atlas=Markup(Atlas(rig).html()))


def write_atlas(course: Course, card: Path) -> Path:
    """Write the atlas among the course's papers and return the page's path."""
    folder = course.root / "paper" / "atlas"
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / f"{card.stem}.html"
    path.write_text(atlas_html(card), encoding="utf-8")
    return path

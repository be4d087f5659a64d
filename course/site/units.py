"""The text of a unit as a page to read: examples with what they print, benches in their place."""

import re
from collections.abc import Callable, Iterable, Iterator
from urllib.parse import urlencode

from fuelcircuits.benches import stems_in
from fuelcircuits.benches.live.page import DRIVE
from fuelcircuits.drawings.style import DEFINITIONS
from fuelmarks.authoring.own_car import own_car_notebook
from fuelmarks.course.course import Course
from fuelmarks.course.directives import Directive, split
from fuelmarks.course.sections import PLOVER, section_picture
from fuelmarks.course.unit_text import filled_text
from fuelmarks.questions import draw, load, seed_of

from course.site.atlas import PART, card_link
from course.site.blocks import Asked, block, box, raw, section
from course.site.examples import Examples
from course.site.reading import for_readers

__all__ = ["own_car_page", "unit_page"]

DRIVEN = re.compile(r"^drive = DriveBench\(rig(.*)\)$", re.M)
"""What a cell says that shows the driven carburettor, and how its drive begins."""
SAID = re.compile(r'(\w+)="?([^",]+)"?')
READER = "reader"
FRONT = re.compile(r"\A---\n.*?\n---\n", re.S)
BREAK = re.compile(r"^\+\+\+.*$", re.M)
CELL = re.compile(r"^```\{code-cell\}.*?\n(.*?)^```$", re.M | re.S)
CAUTION = re.compile(r"^\*\*Caution\.\*\* (.*?)(?=\n\n|\Z)", re.M | re.S)
TITLE = re.compile(r"^# .*$", re.M)
NOTE = (
    "This page is for reading. The notebook of the same name has numbers of your own, cells to "
    "answer in, and says at once whether a unit is right: [how to get it](../{guide}.md)."
)
HOW_FAR = " How far to believe what it says: [what this model knows](../model.md)."
LIVE_CARD = (
    ' Card and readings can also be judged <a href="../benches/your-own-car.html">in the '
    "browser</a>, with nothing installed."
)

Bench = Callable[..., str]
"""Gives the HTML of a live bench by its stem; of the drive also by what a link says of it."""


def unit_page(course: Course, unit: str, bench: Bench) -> str:
    """Return the page of a unit as MyST."""
    exercises = load(unit)
    sheet = draw(exercises, seed_of(READER, exercises.lot, READER))
    givens = {name: given.literal for name, given in sheet.givens_shown.items()}
    examples = Examples(course.root / "rigs" / "plover.toml", givens)
    found = list(_parts(course, unit))
    asked = Asked(exercises, sheet, _card(course, found))
    parts = [
        _directive(part, course, asked)
        if isinstance(part, Directive)
        else _text(part, examples, bench)
        for part in found
    ]
    return _noted(_once("\n\n".join(parts)), "run/student")


def _once(text: str) -> str:
    """Return a page with the patterns of its drawings told by the first of them alone."""
    first, *rest = text.split(DEFINITIONS)
    return first + (DEFINITIONS + "".join(rest) if rest else "")


def _directive(found: Directive, course: Course, asked: Asked) -> str:
    """Return a directive as MyST; a section as it is, in the colours of the page."""
    if found.kind == "section":
        return section(section_picture(found, course.root / "rigs", PART))
    return block(found, asked)


def _card(course: Course, parts: Iterable[str | Directive]) -> str:
    """Return the text of the card that a unit works with."""
    begins = (part for part in parts if isinstance(part, Directive) and part.kind == "begin")
    rig = next((one.options.get("rig") for one in begins), "") or PLOVER
    return (course.root / "rigs" / f"{rig}.toml").read_text(encoding="utf-8")


def own_car_page(course: Course) -> str:
    """Return the owner's notebook as a page to read; its code is shown and not run."""
    parts = [
        cell.source if cell.cell_type == "markdown" else f"```python\n{cell.source}\n```"
        for cell in own_car_notebook(course).cells
    ]
    return _noted("\n\n".join(parts), "run/owner", HOW_FAR + LIVE_CARD)


def _parts(course: Course, unit: str) -> Iterator[str | Directive]:
    path = course.text(unit)
    text = for_readers(filled_text(path, course.root / "rigs", card_link))
    yield from split(FRONT.sub("", text), path)


def _noted(text: str, guide: str, more: str = "") -> str:
    """Return the text with a note below its title."""
    note = NOTE.format(guide=guide) + more
    return TITLE.sub(lambda title: f"{title[0]}\n\n{note}", text, count=1)


def _text(text: str, examples: Examples, bench: Bench) -> str:
    """Return plain text with its cells turned into code, or into benches."""
    text = CELL.sub(lambda cell: _cell(cell[1], examples, bench), BREAK.sub("", text))
    return CAUTION.sub(lambda found: box("Caution", found[1], "caution"), text)


def _cell(code: str, examples: Examples, bench: Bench) -> str:
    if drive := DRIVEN.search(code):
        return raw(bench(DRIVE, urlencode(SAID.findall(drive[1]))))
    if stems := stems_in(code):
        return "\n\n".join(raw(bench(stem)) for stem in stems)
    block = f"```python\n{code}```"
    shown = examples.shown(code).strip()
    return f"{block}\n\n```{{code-block}} text\n:class: shown\n\n{shown}\n```" if shown else block

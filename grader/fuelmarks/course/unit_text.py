"""The text of a unit with the numbers of a card in it: of its own rig, or of another card."""

import re
from pathlib import Path

from fuelmarks.course.card_text import TOKEN, CardText, card_at
from fuelmarks.course.limits import FILE, read_limits

__all__ = ["filled_text", "of_card"]

BEGIN = re.compile(r"^:::\s*\{begin\}(?:.*?\brig=(?P<rig>\S*))?", re.M)
USUAL = "plover"
"""The rig of a unit that names none."""


def filled_text(text: Path, rigs: Path) -> str:
    """Return the text of a unit with the numbers of its own rig, which lies in `rigs`.

    Raises
    ------
    CourseError
        If a number is asked for that the rig's card does not give.
    CardError
        If the card itself is wrong.
    """
    written = text.read_text(encoding="utf-8")
    if not TOKEN.search(written):
        return written
    begin = BEGIN.search(written)
    card = rigs / f"{(begin and begin['rig']) or USUAL}.toml"
    return of_card(card, text.parents[1]).filled(written, _called(text))


def of_card(card: Path, units: Path, *, blanks: bool = False) -> CardText:
    """Return what fills texts from the card in a file, with the limits beside the `units`."""
    return CardText(card_at(card), card.name, read_limits(units / FILE), blanks)


def _called(text: Path) -> str:
    """Return the name of a unit's text for messages."""
    return f"{text.parent.name}/{text.name}"

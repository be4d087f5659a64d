"""The text of a unit with the numbers of a card in it: of its own rig, or of another card."""

import re
from collections.abc import Callable
from pathlib import Path

from fuelmarks.course.card_text import TOKEN, CardText, card_at, plain
from fuelmarks.course.limits import FILE, read_limits

__all__ = ["filled_text", "of_card"]

BEGIN = re.compile(r"^:::\s*\{begin\}(?:.*?\brig=(?P<rig>\S*))?", re.M)
USUAL = "plover"
"""The rig of a unit that names none."""


def filled_text(text: Path, rigs: Path, shown: Callable[[str, str, str], str] | None = None) -> str:
    """Return the text of a unit with the numbers of its own rig, which lies in `rigs`.

    `shown` is given an entry of the card, its number as text and the rig's name, and returns
    what stands in the number's place.

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
    rig = (begin and begin["rig"]) or USUAL

    def put(entry: str, number: str) -> str:
        return shown(entry, number, rig) if shown else number

    return of_card(rigs / f"{rig}.toml", text.parents[1], shown=put).filled(written, _called(text))


def of_card(
    card: Path, units: Path, *, blanks: bool = False, shown: Callable[[str, str], str] = plain
) -> CardText:
    """Return what fills texts from the card in a file, with the limits beside the `units`."""
    return CardText(card_at(card), card.name, read_limits(units / FILE), blanks, shown)


def _called(text: Path) -> str:
    """Return the name of a unit's text for messages."""
    return f"{text.parent.name}/{text.name}"

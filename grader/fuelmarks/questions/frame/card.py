"""Numbers of a spec card in a block: ``{card: high_speed.jet_bore}`` stands for ``1.55 mm``.

``{card: high_speed.jet_bore in mm}`` is the bare number in that unit, for a range that begins or
ends at it. So the same questions serve the rig of the course and the college's own carburettor.
A card may leave entries out; what it says is held to the kinds and ranges of a spec card, and may
be written as the trade does: ``#54 drill``, ``1-1/16 in``.
"""

import re
import tomllib
from collections.abc import Mapping
from typing import Any

from fuelcircuits.cards import read_parts
from fuelcircuits.errors import CircuitError
from fuelcircuits.quantities.written import number_and_unit, si

from fuelmarks.questions.frame.worded import BlockError

__all__ = ["card_used", "filled"]

TAKEN = re.compile(r"\{card:\s*([\w.]+)(?:\s+in\s+([^}]+?))?\s*\}")


def card_used(text: str, name: str) -> str:
    """Return the name of the card from which the block in `text` takes numbers; "" if from none."""
    try:
        card = tomllib.loads(text).get("card", "")
    except tomllib.TOMLDecodeError as error:
        raise BlockError(f"{name} must be TOML, got: {error}") from error
    if not isinstance(card, str) or (card and not re.fullmatch(r"[\w-]+\.toml", card)):
        raise BlockError(f"{name}: card must be a file of rigs such as plover.toml, got {card!r}")
    found = TAKEN.search(text)
    if found and not card:
        raise BlockError(f'{name} must say card = "….toml" to use {found[0]}, got none')
    return card if found else ""


def filled(text: str, card: str, file: str, name: str) -> str:
    """Return `text` with what stands on the card, whose text and file's name are given.

    Raises
    ------
    BlockError
        If the card is wrong, or has not what is asked for.
    """
    try:
        entries = read_parts(card, file).written
    except CircuitError as error:
        raise BlockError(f"{name}: {error}") from error

    def taken(found: re.Match[str]) -> str:
        try:
            return _entry(entries, found[1], found[2] or "", file)
        except CircuitError as error:
            raise BlockError(f"{name}: {error}") from error

    return TAKEN.sub(taken, text)


def _entry(entries: Mapping[str, Any], path: str, unit: str, file: str) -> str:
    """Return the entry at `path`, as it stands or as a bare number in `unit`."""
    found: Any = entries
    for word in path.split("."):
        if isinstance(found, list) and word.isdecimal() and int(word) < len(found):
            found = found[int(word)]
        elif isinstance(found, Mapping) and word in found:
            found = found[word]
        else:
            raise BlockError(f"{file} must have {path}, got nothing at {word!r}")
    if not unit:
        number, own = number_and_unit(str(found))
        return f"{number:.6g} {own}".strip()
    return f"{si(str(found), unit, f'{file}: {path}'):.6g}"

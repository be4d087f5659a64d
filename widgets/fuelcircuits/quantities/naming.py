"""Read an answer that is a name from a list, or several names with commas between.

``Worn needle seat``, ``worn_needle_seat`` and ``worn-needle-seat`` are the same name, and so are
``A`` and ``a``.
"""

import re
from collections.abc import Iterable
from difflib import get_close_matches
from typing import NamedTuple

__all__ = ["Names", "names_in"]

LONGEST = 1000
BETWEEN = re.compile(r"[,;+\n]|\band\b")


class Names(NamedTuple):
    """The names found in a text, each once and in the order of the list, and what is no name."""

    known: tuple[str, ...]
    unknown: tuple[str, ...]

    @property
    def complaint(self) -> str:
        """Return a sentence on what is no name, or nothing."""
        if not self.unknown:
            return ""
        return f"Not on the list: {', '.join(self.unknown)}. Copy the name as it stands there."


def names_in(text: str, options: Iterable[str]) -> Names:
    """Return which of `options` the `text` names; whatever it holds, nothing is raised."""
    listed = {_plain(name): name for name in options}
    parts = [plain for part in BETWEEN.split(text[:LONGEST]) if (plain := _plain(part))]
    known = tuple(name for plain, name in listed.items() if plain in parts)
    strange = (_suggested(one, tuple(listed)) for one in parts if one not in listed)
    return Names(known, tuple(dict.fromkeys(strange)))


def _plain(text: str) -> str:
    """Return `text` in small letters and digits, with one hyphen for all that lies between."""
    return re.sub(r"[^a-z0-9]+", "-", text.lower()).strip("-")


def _suggested(name: str, listed: tuple[str, ...]) -> str:
    """Return `name`, and the listed one it looks like if there is one."""
    near = get_close_matches(name[:80], listed, n=1, cutoff=0.75)
    return f"{name[:40]} (did you mean {near[0]}?)" if near else name[:40]

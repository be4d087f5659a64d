"""Two days of a car side by side: what was read before and after the work."""

from collections.abc import Mapping
from typing import NamedTuple

from fuelcircuits.diagnosis.checks import find
from fuelcircuits.diagnosis.shown import reading_text
from fuelcircuits.own_car.looks import LOOKS, answers_of
from fuelcircuits.own_car.readings import understood
from fuelcircuits.own_car.rounds import Round
from fuelcircuits.own_car.unbroken import unbroken
from fuelcircuits.own_car.usual import USUAL

__all__ = ["Beside", "beside"]

CLOSE = 2.0
"""Uncertainties within which two readings are the same [1]; common practice, no source."""
HEALTHY = 2.0
"""Spreads that a reading of a healthy engine is within, as in the check of the card [1]."""

NOT_YET = (
    "**There are not yet two days to lay beside each other.** Take the same readings on another "
    "day, after the work, in the form of that day."
)


class Beside(NamedTuple):
    """Two days, and a row for everything that was read or seen on either."""

    before: Round | None
    """Nothing while there are not yet two days."""
    after: Round
    rows: list[tuple[str, str, str, str]]
    """What, before, after, and what came of it."""

    def __repr__(self) -> str:
        """Return both days as text."""
        if self.before is None:
            return NOT_YET
        noted = (text.rstrip(". ") for text in (self.after.work, self.after.parts) if text)
        lines = [
            f"Done between: {'; '.join(noted) or 'nothing noted'}.",
            "",
            f"| | {self.before.day} | {self.after.day} | |",
            "| --- | --- | --- | --- |",
            *(f"| {' | '.join(row)} |" for row in self.rows),
        ]
        return "\n".join(lines)

    def _repr_markdown_(self) -> str:
        """Show both days in a notebook."""
        return unbroken(repr(self))


def beside(before: Round, after: Round) -> Beside:
    """Return two days side by side."""
    return Beside(before, after, [*_read(before, after), *_seen(before, after)])


def _read(before: Round, after: Round) -> list[tuple[str, str, str, str]]:
    old, new = understood(before.readings, before.fuel), understood(after.readings, after.fuel)
    return [
        (
            find(name).label,
            reading_text(find(name), old[name]) if name in old else "",
            reading_text(find(name), new[name]) if name in new else "",
            _came(name, old[name], new[name]) if name in old and name in new else "",
        )
        for name in dict.fromkeys([*old, *new])
    ]


def _seen(before: Round, after: Round) -> list[tuple[str, str, str, str]]:
    old, new = answers_of(before.seen), answers_of(after.seen)
    words = {True: "yes", False: "no", None: ""}
    return [
        (LOOKS[name].label, words[old.get(name)], words[new.get(name)], _seen_came(name, old, new))
        for name in dict.fromkeys([*old, *new])
    ]


def _seen_came(name: str, old: Mapping[str, bool], new: Mapping[str, bool]) -> str:
    """Return what came of something seen, in a word; nothing if it was not seen on both days."""
    if name not in old or name not in new:
        return ""
    if old[name] == new[name]:
        return "the same"
    return "worse" if new[name] == LOOKS[name].bad else "better"


def _came(name: str, old: float, new: float) -> str:
    """Return what came of a reading, in a word."""
    doubt = find(name).uncertainty(new)
    if abs(new - old) <= CLOSE * doubt:
        return "the same"
    side = "higher" if new > old else "lower"
    if name not in USUAL:
        return side
    off, was = (abs(one - USUAL[name].middle) for one in (new, old))
    if max(off, was) <= HEALTHY * USUAL[name].spread:
        return f"{side}, both as healthy engines have it"
    return f"{side}, {'better' if off < was else 'worse'}"

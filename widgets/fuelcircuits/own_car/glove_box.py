"""A page to print for the glove box: what the carburettor is, and what was done to it."""

from collections.abc import Iterator
from html import escape
from pathlib import Path
from typing import NamedTuple

from fuelcircuits.diagnosis.checks import find
from fuelcircuits.own_car.card import OwnCard
from fuelcircuits.own_car.entries import BARRELS, ENTRIES, SECOND_ENTRIES
from fuelcircuits.own_car.looks import LOOKS, answers_of
from fuelcircuits.own_car.rounds import Round, Rounds

__all__ = ["GloveBox", "glove_box"]

STYLE = """
body { font: 12pt/1.35 sans-serif; max-width: 42em; margin: 1.5em auto; padding: 0 1em; }
table { border-collapse: collapse; width: 100%; margin: .5em 0 1em; }
th, td { border: 1px solid #888; padding: .15em .5em; text-align: left; }
@media print { body { margin: 0; max-width: none; } tr, h2 { break-inside: avoid; } }
"""


class GloveBox(NamedTuple):
    """The page as it was written."""

    path: Path

    def __repr__(self) -> str:
        """Say where it lies."""
        return f"Written: {self.path}. Open it in a browser and print it."

    def _repr_markdown_(self) -> str:
        """Say where it lies, as a link that a notebook follows."""
        return f"Written: [{self.path.name}]({self.path}). Open it in a browser and print it."


def glove_box(card: OwnCard, rounds: Rounds, path: Path) -> GloveBox:
    """Write the page and say where it lies."""
    path.write_text("\n".join(_lines(card, rounds)), encoding="utf-8")
    return GloveBox(path)


def _lines(card: OwnCard, rounds: Rounds) -> Iterator[str]:
    """Yield the lines of the page."""
    yield '<!doctype html><html lang="en"><head><meta charset="utf-8">'
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">'
    yield f"<title>{escape(card.name)}</title><style>{STYLE}</style></head><body><main>"
    yield f"<h1>{escape(card.name)}</h1>"
    yield f"<h2>The carburettor: {escape(BARRELS[card.barrels])}</h2>"
    yield "<table><thead><tr><th>what</th><th>value</th></tr></thead><tbody>"
    yield from _entries(card)
    yield "</tbody></table>"
    for one in reversed(rounds.every):
        yield from _day(one)
    yield "<p>Petrol burns: no flame, no spark, moving air, an extinguisher within reach.</p>"
    yield "</main></body></html>"


def _entries(card: OwnCard) -> Iterator[str]:
    matters = {**ENTRIES, **SECOND_ENTRIES}
    for name in card.asked():
        measured = card.entries.get(name, "")
        value = measured or f"{card.assumed(name)} (assumed)"
        yield f"<tr><td>{escape(matters[name].label)}</td><td>{escape(value)}</td></tr>"


def _day(one: Round) -> Iterator[str]:
    yield f"<h2>{escape(one.day)}</h2>"
    yield f"<p>{escape(one.where)}.</p>"
    for word, text in (("Work", one.work), ("Parts", one.parts)):
        if text:
            yield f"<p>{word}: {escape(text)}</p>"
    if one.readings or one.seen:
        yield "<table><thead><tr><th>reading</th><th>value</th></tr></thead><tbody>"
        for name, text in one.readings.items():
            yield f"<tr><td>{escape(find(name).label)}</td><td>{escape(str(text))}</td></tr>"
        for name, answer in answers_of(one.seen).items():
            yield f"<tr><td>{LOOKS[name].label}</td><td>{'yes' if answer else 'no'}</td></tr>"
        yield "</tbody></table>"

"""How an entry of a card stands, in a sentence: assumed, understood, unusual or wrong."""

from typing import NamedTuple

from fuelcircuits.errors import CircuitError
from fuelcircuits.own_car.entries import Matter
from fuelcircuits.own_car.entry_reading import entry_value, is_bare
from fuelcircuits.own_car.entry_text import entry_text

__all__ = ["Told", "entry_told"]

STAMPED = (
    " If it is a number stamped on the jet: that is no size. Measure the hole with a pin gauge, or "
    "by what it passes, below."
)
OTHER_UNIT = " A number in another unit is written with it."


class Told(NamedTuple):
    """A sentence, and how what it tells stands: ``good``, ``odd``, ``wrong`` or nothing."""

    text: str
    how: str = ""


def entry_told(matter: Matter, text: str, assumed: str) -> Told:
    """Return how an entry stands.

    Parameters
    ----------
    matter
        What is asked.
    text
        What somebody wrote; may be empty.
    assumed
        The value that is taken where nobody has measured; empty where there is no such part.
    """
    low, high = matter.usual
    usual = f"usual {low:g} to {high:g} {matter.unit}".strip()
    if not text.strip():
        stands = f"assumed {assumed}" if assumed else "taken to have none"
        return Told(f"Not measured: {stands} ({usual}).")
    try:
        value = entry_value(matter.entry, text)
    except CircuitError as error:
        return Told(f"{error}.{_hint(matter, text)}", "wrong")
    shown = entry_text(matter.entry, value)
    if value and not matter.is_usual(value):
        sure = "the whole bore, and the unit right" if "bore" in matter.entry else "the unit right"
        return Told(f"Understood: {shown}, which is unusual ({usual}). Is it {sure}?", "odd")
    return Told(f"Understood: {shown} ({usual}).", "good")


def _hint(matter: Matter, text: str) -> str:
    """Return what may have been meant by an entry that cannot be."""
    if matter.jet:
        return STAMPED
    return OTHER_UNIT if matter.unit and is_bare(text) else ""

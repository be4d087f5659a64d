"""What a drawing asks for: the rules by which numbers place its parts.

A part says ``data-set="transform = rotate([droop] 120 80); opacity = [shut]"``: an attribute,
or ``text`` for its words, and what it is set to, with the numbers' names in brackets. A passage
says ``data-march="inlet"`` for the speed of its marks. rules.js reads and does the same.
"""

import re
from collections.abc import Iterator, Mapping
from xml.etree import ElementTree

__all__ = ["SET", "asked", "fill", "rules"]

SET, MARCH = "data-set", "data-march"
SLOT = re.compile(r"\[(\w+)\]")
STILL = 0.05
"""Units a second below which marks are not shown."""


def rules(text: str) -> Iterator[tuple[str, str]]:
    """Yield each attribute that a `data-set` sets, with the text that it is set to."""
    for rule in filter(None, text.split(";")):
        name, _, words = rule.partition("=")
        yield name.strip(), words.strip()


def asked(drawing: str) -> set[str]:
    """Return the names of the numbers that a drawing asks for."""
    parts = list(ElementTree.fromstring(drawing).iter())
    slots = {name for part in parts for name in SLOT.findall(part.get(SET, ""))}
    return slots | {part.get(MARCH, "") for part in parts} - {""}


def fill(drawing: str, numbers: Mapping[str, float]) -> ElementTree.Element:
    """Return the drawing with every rule carried out, as the browser does it."""
    root = ElementTree.fromstring(drawing)
    for part in root.iter():
        for name, text in rules(part.get(SET, "")):
            words = SLOT.sub(lambda slot: f"{numbers[slot[1]]:.3f}", text)
            if name == "text":
                part.text = words
            else:
                part.set(name, words)
        if abs(numbers.get(part.get(MARCH, ""), 1.0)) < STILL:
            part.set("visibility", "hidden")
    return root

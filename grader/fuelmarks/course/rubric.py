"""A rubric: what a written answer earns points for, one line of the unit's text for each."""

import re
from dataclasses import dataclass

__all__ = ["Item", "rubric_in"]

LINE = re.compile(r"^[ \t]*[-*][ \t]+(\d+(?:[.,]\d+)?)[ \t]+points?\b[ \t]*:?[ \t]*(.*)$")


@dataclass(frozen=True)
class Item:
    """One thing to look for in an answer, and what it is worth."""

    points: float
    words: str


def rubric_in(text: str, out_of: float) -> tuple[Item, ...]:
    """Return the items of the rubric in `text`; single points up to `out_of` if it has none."""
    found: list[Item] = []
    for line in text.splitlines():
        hit = LINE.match(line)
        if hit:
            found.append(Item(float(hit[1].replace(",", ".")), hit[2].strip()))
        elif found and line.startswith((" ", "\t")) and line.strip():
            found[-1] = Item(found[-1].points, f"{found[-1].words} {line.strip()}")
    return tuple(found) or tuple(Item(1.0, "a point") for _ in range(int(out_of)))

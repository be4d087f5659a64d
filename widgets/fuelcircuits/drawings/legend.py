"""Numbers and names beside a drawing, with a line from each to what it names."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from html import escape
from typing import Literal

from fuelcircuits.drawings.canvas import Point

__all__ = ["MARGIN", "Label", "legend"]

MARGIN = 158.0
"""Room for names on either side of a drawing [units]."""
APART, BALLOON = 24.0, 8.5


@dataclass(frozen=True)
class Label:
    """A name at the left or right of a drawing: what it points at [units], and its number."""

    number: str
    name: str
    target: Point
    side: Literal["left", "right"]
    part: str = ""


def legend(labels: Sequence[Label], size: Point, link: str = "") -> str:
    """Return the labels around a drawing of `size` [units], at whose corner is the origin.

    `link` is the address of a part with ``{}`` for its name; without it no name is a link.
    """
    parts: list[str] = []
    for side in ("left", "right"):
        mine = sorted((one for one in labels if one.side == side), key=lambda one: one.target[1])
        places = _spread([one.target[1] for one in mine], size[1])
        edge = -16.0 if side == "left" else size[0] + 16.0
        for one, height in zip(mine, places, strict=True):
            parts.append(_lead((edge, height), one.target))
        for one, height in zip(mine, places, strict=True):
            shown = _name(one, (edge, height))
            parts.append(f'<a href="{link.format(one.part)}">{shown}</a>' if link else shown)
    return "".join(parts)


def _spread(wanted: Iterable[float], high: float) -> list[float]:
    """Return heights as near as can be to the `wanted` ones, rising, that leave room for words."""
    places: list[float] = []
    for each in wanted:
        places.append(max(each, places[-1] + APART if places else 10.0))
    limit = high - 8.0
    for at in range(len(places) - 1, -1, -1):
        places[at] = min(places[at], limit)
        limit = places[at] - APART
    return places


def _lead(start: Point, end: Point) -> str:
    """Return the line from a balloon to what it names, with a dot at its end."""
    path = f"M{start[0]:.1f} {start[1]:.1f}L{end[0]:.1f} {end[1]:.1f}"
    dot = f'<circle class="solid" cx="{end[0]:.1f}" cy="{end[1]:.1f}" r="2.2"/>'
    return f'<path class="under" d="{path}"/><path class="lead" d="{path}"/>{dot}'


def _name(one: Label, place: Point) -> str:
    """Return a balloon with its number, and the name beside it."""
    x, y = place
    step, anchor = (-BALLOON - 5, "end") if one.side == "left" else (BALLOON + 5, "start")
    return (
        f'<circle class="balloon" cx="{x:.1f}" cy="{y:.1f}" r="{BALLOON}"/>'
        f'<text class="number" x="{x:.1f}" y="{y + 4:.1f}">{escape(one.number)}</text>'
        f'<text text-anchor="{anchor}" x="{x + step:.1f}" y="{y + 4.3:.1f}">'
        f"{escape(one.name)}</text>"
    )

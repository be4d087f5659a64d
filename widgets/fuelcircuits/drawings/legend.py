"""Numbers and names beside a drawing, with a line from each to what it names.

Names stand at the left and right of a drawing. One with many numbers has them in rows above and
below it, and their names in a list at its foot.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from html import escape
from typing import Literal, TypeAlias

from fuelcircuits.drawings.canvas import Point
from fuelcircuits.drawings.parts import part

__all__ = ["Label", "Side", "atlas_numbers", "legend", "margins"]

Side: TypeAlias = Literal["left", "right", "top", "bottom"]
MARGIN, ROW, LINE = 158.0, 34.0, 19.0
"""Room for names at a side, for a row of numbers, and for a line of the list [units]."""
COLUMN = 190.0
"""Width of a column of the list."""
APART, BALLOON = 24.0, 9.5


@dataclass(frozen=True)
class Label:
    """A name beside a drawing: what it points at [units], and its number."""

    number: str
    name: str
    target: Point
    side: Side
    part: str = ""


def atlas_numbers(labels: Sequence[Label]) -> list[Label]:
    """Return labels with the numbers that their parts have in the atlas, and in that order.

    Raises `KeyError` for a part that there is not.
    """
    ordered = sorted(labels, key=lambda one: part(one.part).number)
    return [replace(one, number=str(part(one.part).number)) for one in ordered]


def margins(labels: Sequence[Label], wide: float) -> tuple[float, float, float, float]:
    """Return the room that labels need at the left, top, right and foot of a drawing [units]."""
    sides = {one.side for one in labels}
    rows = len(_listed(labels, wide))
    foot = ROW * ("bottom" in sides) + (rows * LINE + 6 if rows else 0.0)
    side = MARGIN if sides & {"left", "right"} else 0.0
    return side, ROW * ("top" in sides), side, foot


def legend(labels: Sequence[Label], size: Point, link: str = "") -> str:
    """Return the labels around a drawing of `size` [units], at whose corner is the origin.

    `link` is the address of a part with ``{}`` for its name; without it no name is a link.
    """
    wide, high = size
    placed = [
        *_upright([one for one in labels if one.side == "left"], -16.0, high),
        *_upright([one for one in labels if one.side == "right"], wide + 16.0, high),
        *_across([one for one in labels if one.side == "top"], -16.0, wide),
        *_across([one for one in labels if one.side == "bottom"], high + 16.0, wide),
    ]
    leads = "".join(_lead(place, one.target) for one, place in placed)
    shown = "".join(_linked(one, _balloon(one, place), link) for one, place in placed)
    foot = high + (ROW if any(one.side == "bottom" for one in labels) else 0.0) + LINE
    rows = _listed(labels, wide)
    listed = "".join(
        _linked(one, _entry(one, (column * COLUMN, foot + row * LINE)), link)
        for row, entries in enumerate(rows)
        for column, one in entries
    )
    return leads + shown + listed


def _upright(labels: Sequence[Label], x: float, high: float) -> list[tuple[Label, Point]]:
    ordered = sorted(labels, key=lambda one: one.target[1])
    places = _spread([one.target[1] for one in ordered], high)
    return [(one, (x, y)) for one, y in zip(ordered, places, strict=True)]


def _across(labels: Sequence[Label], y: float, wide: float) -> list[tuple[Label, Point]]:
    ordered = sorted(labels, key=lambda one: one.target[0])
    places = _spread([one.target[0] for one in ordered], wide)
    return [(one, (x, y)) for one, x in zip(ordered, places, strict=True)]


def _listed(labels: Sequence[Label], wide: float) -> list[list[tuple[int, Label]]]:
    """Return the rows of the list at the foot; each entry with its column."""
    listed = [one for one in labels if one.side in ("top", "bottom")]
    columns = max(int(wide // COLUMN), 1)
    rows = -(-len(listed) // columns)
    return [
        [(at // rows, listed[at]) for at in range(row, len(listed), rows)] for row in range(rows)
    ]


def _spread(wanted: Sequence[float], most: float) -> list[float]:
    """Return rising places with room for words, as near as can be to the `wanted` ones.

    They lie half way between those pushed on from the first and those pushed back from the last.
    """
    on = _pushed(wanted, 10.0)
    back = [-each for each in reversed(_pushed([-each for each in reversed(wanted)], 8.0 - most))]
    middle = [(first + last) / 2 for first, last in zip(on, back, strict=True)]
    held = _pushed(middle, 10.0)
    return [-each for each in reversed(_pushed([-each for each in reversed(held)], 8.0 - most))]


def _pushed(wanted: Sequence[float], least: float) -> list[float]:
    """Return `wanted` places, each pushed on as far as the one before needs room."""
    places: list[float] = []
    for each in wanted:
        places.append(max(each, places[-1] + APART if places else least))
    return places


def _lead(start: Point, end: Point) -> str:
    """Return the line from a balloon to what it names, with a dot at its end."""
    path = f"M{start[0]:.1f} {start[1]:.1f}L{end[0]:.1f} {end[1]:.1f}"
    dot = f'<circle class="solid" cx="{end[0]:.1f}" cy="{end[1]:.1f}" r="2.2"/>'
    return f'<path class="under" d="{path}"/><path class="lead" d="{path}"/>{dot}'


def _linked(one: Label, shown: str, link: str) -> str:
    leads = link and part(one.part).shown
    return f'<a href="{link.format(one.part)}">{shown}</a>' if leads else shown


def _balloon(one: Label, place: Point) -> str:
    """Return a balloon with its number; at the sides its name stands beside it."""
    x, y = place
    shown = (
        f'<circle class="balloon" cx="{x:.1f}" cy="{y:.1f}" r="{BALLOON}"/>'
        f'<text class="number" x="{x:.1f}" y="{y + 4:.1f}">{escape(one.number)}</text>'
    )
    if one.side in ("top", "bottom"):
        return shown
    step, anchor = (-BALLOON - 5, "end") if one.side == "left" else (BALLOON + 5, "start")
    return (
        f'{shown}<text text-anchor="{anchor}" x="{x + step:.1f}" y="{y + 4.3:.1f}">'
        f"{escape(one.name)}</text>"
    )


def _entry(one: Label, place: Point) -> str:
    """Return a line of the list."""
    x, y = place
    return (
        f'<text class="number" x="{x + 10:.1f}" y="{y:.1f}">{escape(one.number)}</text>'
        f'<text x="{x + 24:.1f}" y="{y:.1f}">{escape(one.name)}</text>'
    )

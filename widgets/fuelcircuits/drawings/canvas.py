"""A sheet to draw on, in millimetres of the thing that is drawn.

Hollows are drawn in two passes, all their rims before all their insides, so that passages which
meet run into one another without a line between them. What lies in front of something else is
drawn on a further storey.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from html import escape
from math import atan2, cos, pi, sin
from typing import Literal, TypeAlias

__all__ = ["Canvas", "Holds", "Point", "arc", "box", "ring", "turned"]

Point: TypeAlias = tuple[float, float]
Holds: TypeAlias = Literal["air", "petrol", "froth", "water", "vapour"]
FILLED = {
    "air": (),
    "petrol": ("petrol", "grain"),
    "froth": ("froth",),
    "water": ("water", "ripple"),
    "vapour": ("vapour",),
}
PASSES = ("ground", "rims", "insides", "pools", "parts", "ways", "words")
RIM = 2.8


@dataclass
class Canvas:
    """Gathers shapes; `corner` is the place of the sheet's corner [mm], `scale` units a mm."""

    corner: Point
    scale: float
    storeys: list[dict[str, list[str]]] = field(default_factory=lambda: [_storey()])
    pieces: dict[str, list[str]] = field(default_factory=dict)

    def in_front(self) -> None:
        """Draw what follows in front of all that is there."""
        self.storeys.append(_storey())

    def put(self, onto: str, shape: str) -> None:
        """Add a shape to one of the passes of the storey in front."""
        self.storeys[-1][onto].append(shape)

    def at(self, point: Point) -> Point:
        """Return where a point lies on the sheet [units]."""
        return (
            (point[0] - self.corner[0]) * self.scale,
            (point[1] - self.corner[1]) * self.scale,
        )

    def path(self, points: Sequence[Point], close: bool = True) -> str:
        """Return the path through `points` [mm]."""
        spots = (self.at(point) for point in points)
        return "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in spots) + ("Z" if close else "")

    def casting(self, points: Sequence[Point], piece: str = "body") -> None:
        """Draw a cut casting; those of one piece run into one another."""
        self.pieces.setdefault(piece, []).append(self.path(points))

    def hollow(self, points: Sequence[Point], holds: Holds = "air") -> None:
        """Draw a cavity and what it holds."""
        path = self.path(points)
        self.put("rims", f'<path class="rim" d="{path}"/>')
        self.put("insides", f'<path class="paper" d="{path}"/>')
        for kind in FILLED[holds]:
            self.put("insides", f'<path class="{kind}" d="{path}"/>')

    def channel(self, left: Sequence[Point], right: Sequence[Point]) -> None:
        """Draw a wide way with two walls, from above, that stays open at both ends."""
        for wall in (left, right):
            self.put("rims", f'<path class="rim" d="{self.path(wall, close=False)}"/>')
        self.shape([*left, *reversed(right)], "paper", "insides")

    def passage(self, points: Sequence[Point], width: float, holds: Holds = "air") -> None:
        """Draw a drilled passage of `width` [mm] along `points`, and what it holds."""
        path, wide = self.path(points, close=False), width * self.scale
        self.put("rims", _way("ink-in", path, wide + RIM))
        self.put("insides", _way("sheet-in", path, wide))
        for kind in FILLED[holds]:
            self.put("insides", _way(f"{kind}-in", path, wide))

    def pool(self, points: Sequence[Point], kind: Holds = "petrol") -> None:
        """Draw what stands in a hollow, over the hollow."""
        for name in FILLED[kind]:
            self.put("pools", f'<path class="{name}" d="{self.path(points)}"/>')

    def shape(
        self, points: Sequence[Point], kind: str = "part", onto: str = "parts", close: bool = True
    ) -> None:
        """Draw an outline of one of the kinds that the style knows."""
        self.put(onto, f'<path class="{kind}" d="{self.path(points, close)}"/>')

    def line(self, points: Sequence[Point], kind: str = "line", onto: str = "parts") -> None:
        """Draw a line that stays open."""
        self.shape(points, kind, onto, close=False)

    def disc(self, middle: Point, radius: float, kind: str = "part", onto: str = "parts") -> None:
        """Draw a circle of `radius` [mm]."""
        x, y = self.at(middle)
        self.put(
            onto,
            f'<circle class="{kind}" cx="{x:.1f}" cy="{y:.1f}" r="{radius * self.scale:.1f}"/>',
        )

    def arrow(self, points: Sequence[Point], kind: str = "air", onto: str = "ways") -> None:
        """Draw a way that ends in an arrow's head."""
        self.line(points, kind, onto)
        self.head(
            points[-2], points[-1], f"tip-{kind}" if kind in ("air", "fuel", "gas") else "tip"
        )

    def head(self, start: Point, end: Point, kind: str = "tip", onto: str = "ways") -> None:
        """Draw the head of an arrow from `start` that points at `end`."""
        (a, b), (x, y) = self.at(start), self.at(end)
        angle = atan2(y - b, x - a)
        back = [(x - 8 * cos(angle + turn), y - 8 * sin(angle + turn)) for turn in (0.38, -0.38)]
        spots = "L".join(f"{left:.1f} {down:.1f}" for left, down in ((x, y), *back))
        self.put(onto, f'<path class="{kind}" d="M{spots}Z"/>')

    def measure(self, start: Point, end: Point) -> None:
        """Draw a dimension line with a head at either end."""
        self.line((start, end), "thin", "ways")
        self.head(start, end)
        self.head(end, start)

    def words(self, place: Point, text: str, kind: str = "halo", anchor: str = "middle") -> None:
        """Write `text` at a place [mm]."""
        x, y = self.at(place)
        self.put(
            "words",
            f'<text class="{kind}" text-anchor="{anchor}" x="{x:.1f}" y="{y + 4:.1f}">'
            f"{escape(text)}</text>",
        )

    def only(self, kind: str) -> str:
        """Return the shapes of one pass alone, back to front."""
        return "".join(shape for storey in self.storeys for shape in storey[kind])

    def drawn(self) -> str:
        """Return all shapes, back to front."""
        parts = [_piece(name, paths) for name, paths in self.pieces.items()]
        for storey in self.storeys:
            parts += [shape for shapes in storey.values() for shape in shapes]
        return "".join(parts)


def arc(middle: Point, radius: float, start: float, end: float, steps: int = 24) -> list[Point]:
    """Return points of an arc from angle `start` to `end` [rad], clockwise from the right."""
    turns = (start + (end - start) * step / steps for step in range(steps + 1))
    return [(middle[0] + radius * cos(turn), middle[1] + radius * sin(turn)) for turn in turns]


def turned(points: Sequence[Point], about: Point, angle: float) -> list[Point]:
    """Return `points` turned clockwise by `angle` [rad] about a point."""
    c, s = cos(angle), sin(angle)
    moved = [(x - about[0], y - about[1]) for x, y in points]
    return [(about[0] + c * x - s * y, about[1] + s * x + c * y) for x, y in moved]


def box(left: float, top: float, right: float, foot: float) -> list[Point]:
    """Return the corners of a rectangle."""
    return [(left, top), (right, top), (right, foot), (left, foot)]


def ring(middle: Point, radius: float) -> list[Point]:
    """Return points of a whole circle."""
    return arc(middle, radius, 0.0, 2 * pi, 48)


def _storey() -> dict[str, list[str]]:
    return {name: [] for name in PASSES}


def _way(kind: str, path: str, width: float) -> str:
    return f'<path class="way {kind}" stroke-width="{width:.1f}" d="{path}"/>'


def _piece(name: str, paths: list[str]) -> str:
    """Return the castings of one piece: rims, then sheet, then hatch."""
    rims = "".join(f'<path class="rim" d="{path}"/>' for path in paths)
    inside = "".join(f'<path class="paper" d="{path}"/>' for path in paths)
    # hatched last, so that a rim between two castings of one piece is covered
    return rims + inside + "".join(f'<path class="{name}" d="{path}"/>' for path in paths)

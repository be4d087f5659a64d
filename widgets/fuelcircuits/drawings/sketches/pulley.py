"""Sketch of the crankshaft's pulley in the timing light."""

from math import cos, pi, sin

from fuelcircuits.drawings.canvas import Canvas, arc, ring
from fuelcircuits.drawings.number import Number
from fuelcircuits.drawings.picture import Picture, picture

__all__ = ["pulley"]

MIDDLE, RADIUS = (170.0, 140.0), 110.0
LATE = 0.42
"""How far the mark is drawn behind the pointer [rad]; not to scale."""


def pulley(across: Number, rim: Number) -> Picture:
    """Return the pulley from its end, its mark late by a length round the rim."""
    canvas = Canvas((0.0, 0.0), 1.0)
    canvas.shape(ring(MIDDLE, RADIUS), "metal", "ground")
    canvas.disc(MIDDLE, 12)
    canvas.disc(MIDDLE, 2, "solid")
    canvas.measure((MIDDLE[0] - RADIUS, MIDDLE[1]), (MIDDLE[0] + RADIUS, MIDDLE[1]))
    canvas.words((MIDDLE[0] - 50, MIDDLE[1] + 20), across.text, "given halo")
    start, end = -pi / 2, -pi / 2 + LATE
    canvas.shape([(163, 4), (177, 4), (170, 26)], "solid")
    canvas.words((156, 8), "pointer", "small halo", "end")
    canvas.line([_on(RADIUS - 22, end), _on(RADIUS, end)], "line", "words")
    canvas.words((_on(RADIUS - 30, end)[0], _on(RADIUS - 30, end)[1] + 6), "mark", "small halo")
    way = arc(MIDDLE, RADIUS + 12, start, end, 16)
    canvas.line(way, "thin", "words")
    canvas.head(way[-2], way[-1], "tip", "words")
    canvas.head(way[1], way[0], "tip", "words")
    canvas.words((_on(RADIUS + 22, LATE / 2 + start)[0] + 14, 14), rim.text, "given halo", "start")
    alt = (
        f"A pulley of {across.text} across, seen from its end. Its mark has stopped {rim.text} "
        "past the pointer, measured round the rim. How far is not to scale."
    )
    return picture(canvas.drawn(), (340, 260), alt)


def _on(radius: float, turn: float) -> tuple[float, float]:
    """Return the point at an angle round the pulley's middle."""
    return MIDDLE[0] + radius * cos(turn), MIDDLE[1] + radius * sin(turn)

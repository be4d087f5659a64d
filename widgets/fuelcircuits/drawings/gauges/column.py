"""A bent tube of water: what it shows is the height from one surface to the other."""

from math import pi

from fuelcircuits.drawings.canvas import Canvas, arc
from fuelcircuits.drawings.number import Number
from fuelcircuits.drawings.picture import Picture, picture

__all__ = ["GRADUATION", "column"]

INCH = 249.089
"""Pascals of an inch of water (at 4 °C)."""
UNITS, GRADUATION, SPAN = 24.0, 0.25, 6.0
"""Units of an inch, and the scale's graduation and half its length [in]."""
LEFT, RIGHT, ZERO, BEND, BORE = 80.0, 220.0, 200.0, 360.0, 20.0
ALT = (
    "A bent glass tube with water in it, and a scale in inches beside either leg: nought in the "
    "middle, 6 above and 6 below, a mark every quarter inch. The left leg is open to the air and "
    "its water stands below nought; the right leg is joined to the vacuum and its water stands as "
    "far above nought."
)


def column(vacuum: Number) -> Picture:
    """Return a tube whose surfaces stand apart by a vacuum."""
    canvas = Canvas((20.0, 0.0), 1.0)
    half = vacuum.value / INCH / 2 * UNITS
    bend = arc(((LEFT + RIGHT) / 2, BEND), (RIGHT - LEFT) / 2, pi, 0.0, 40)
    canvas.passage([(LEFT, 20.0), *bend, (RIGHT, 24.0), (RIGHT + 94, 24.0)], BORE)
    water = [(LEFT, ZERO + half), *bend, (RIGHT, ZERO - half)]
    for kind in ("water", "ripple"):
        path = canvas.path(water, close=False)
        canvas.put("pools", f'<path class="way {kind}-in" stroke-width="{BORE:g}" d="{path}"/>')
    for x, height in ((LEFT, ZERO + half), (RIGHT, ZERO - half)):
        canvas.line([(x - BORE / 2, height), (x + BORE / 2, height)], "line", "ways")
        _scale(canvas, x + BORE / 2 + 8)
    canvas.words((LEFT, 8.0), "open to the air", "small")
    canvas.words((RIGHT + 56, 4.0), "to the vacuum", "small")
    canvas.words(((LEFT + RIGHT) / 2 + 12, 100.0), "inches", "small")
    return picture(canvas.drawn(), (300, 445), ALT)


def _scale(canvas: Canvas, x: float) -> None:
    """Draw one leg's scale: nought in its middle."""
    for step in range(-int(SPAN / GRADUATION), int(SPAN / GRADUATION) + 1):
        inches = step * GRADUATION
        height = ZERO - inches * UNITS
        whole = step % round(1 / GRADUATION) == 0
        canvas.line([(x, height), (x + (14 if whole else 7), height)], "thin")
        if whole:
            canvas.words((x + 18, height), f"{abs(inches):g}", "small", "start")

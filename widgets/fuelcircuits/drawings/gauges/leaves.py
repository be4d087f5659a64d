"""Feeler leaves in a gap: two together just go, and the next does not."""

from fuelcircuits.drawings.canvas import Canvas, box
from fuelcircuits.drawings.number import Number
from fuelcircuits.drawings.picture import Picture, picture

__all__ = ["leaves"]

UNITS = 60e3
"""Units a metre across the gap."""


def leaves(thick: Number, thin: Number) -> Picture:
    """Return a gap with two leaves in it."""
    canvas = Canvas((0.0, 0.0), 1.0)
    top = 130.0
    low, high = thin.value * UNITS, thick.value * UNITS
    canvas.casting(box(20, 20, 120, top))
    canvas.casting(box(20, top + low + high, 120, top + low + high + 90))
    canvas.shape(box(30, top, 330, top + high), "metal")
    canvas.shape(box(30, top + high, 290, top + high + low), "part")
    canvas.words((230, top + high / 2), thick.text, "given")
    canvas.line([(296, top + high + low / 2), (320, top + high + low / 2 + 26)], "thin")
    canvas.words((324, top + high + low / 2 + 30), thin.text, "given", "start")
    canvas.words((70, 8.0), "lever", "small")
    canvas.words((70, top + low + high + 104), "stop", "small")
    canvas.words((230, 90), "two leaves together just go;", "small")
    canvas.words((230, 106), "with any thicker pair the gap is shut", "small")
    alt = (
        f"A gap between a lever and a stop, seen from the side. Two feeler leaves lie in it one on "
        f"the other and fill it: one of {thick.text}, one of {thin.text}."
    )
    return picture(canvas.drawn(), (400, 270), alt)

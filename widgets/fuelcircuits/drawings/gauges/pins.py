"""Pin gauges at a jet: each pin either goes in or stops on the rim."""

from fuelcircuits.drawings.canvas import Canvas, box
from fuelcircuits.drawings.number import Number
from fuelcircuits.drawings.picture import Picture, picture

__all__ = ["STEP", "pins"]

STEP = 0.02e-3
"""How much thicker each pin is than the one before [m]."""
BEFORE, AFTER = 2, 2
"""Pins that go before the last that goes, and pins that stop."""


def pins(goes: Number) -> Picture:
    """Return pins at a jet's mouth, the thickest that goes being of a size."""
    canvas = Canvas((0.0, 0.0), 1.0)
    sizes = [goes.value + STEP * step for step in range(-BEFORE, AFTER + 1)]
    said = []
    for place, size in enumerate(sizes):
        x, inside = 60.0 + 100 * place, place <= BEFORE
        for side in (-1, 1):
            canvas.shape(box(x + side * 14, 130, x + side * 40, 190), "jet")
        end = 176.0 if inside else 129.0
        wide = 13.0 if inside else 15.5
        canvas.shape(box(x - wide, end - 96, x + wide, end), "metal")
        canvas.words((x, 20.0), f"{1e3 * size:.2f} mm", "given")
        canvas.words((x, 212.0), "goes" if inside else "stops", "small")
        said.append(f"{1e3 * size:.2f} mm {'goes in' if inside else 'stops on the rim'}")
    alt = f"Five pins at the mouth of the same jet, cut open: {', '.join(said)}."
    return picture(canvas.drawn(), (520, 222), alt)

"""A depth rule that stands on a cover's face: its rod is read at the beam's lower edge."""

from fuelcircuits.drawings.canvas import Canvas, arc, box
from fuelcircuits.drawings.number import Number
from fuelcircuits.drawings.picture import Picture, picture

__all__ = ["BEAM", "GRADUATION", "rule"]

UNITS, BEAM, GRADUATION, END = 9.0, 4.0, 0.5, 30
"""Units of a millimetre; the beam's height, a graduation, the end of the scale [mm]."""
FACE, ROD = 175.0, 200.0
"""Height of the cover's face, and where the rod stands across."""
ALT = (
    "A depth rule stands with its beam on the face of the cover. Its rod goes down through the "
    "beam to the float, and carries a scale in millimetres, a mark every half, that counts "
    "upwards from the rod's end. A window in the beam shows the scale from the beam's upper edge "
    "to its lower edge, which lies on the face."
)


def rule(depth: Number) -> Picture:
    """Return a depth rule on a float that has dropped."""
    canvas = Canvas((0.0, 0.0), 1.0)
    foot = FACE + depth.value * 1e3 * UNITS
    for left, right in ((20.0, 130.0), (270.0, 380.0)):
        canvas.casting(box(left, FACE, right, FACE + 60), "cover")
    ends = [*arc((165, foot + 40), 34, 1.57, 4.71), *arc((235, foot + 40), 34, -1.57, 1.57)]
    canvas.shape([(x, foot + 40 + (y - foot - 40) * 40 / 34) for x, y in ends], "metal")
    canvas.words((200, foot + 40), "float", "small")
    canvas.words((75, FACE + 74), "cover's face", "small")
    beam = FACE - BEAM * UNITS
    canvas.shape(box(60, beam, 172, FACE), "metal")
    canvas.shape(box(228, beam, 340, FACE), "metal")
    canvas.line([(172, beam), (228, beam)])
    canvas.line([(172, FACE), (228, FACE)])
    canvas.words((284, beam + 22), "beam", "small")
    _rod(canvas, foot)
    return picture(canvas.drawn(), (400, FACE + 32 * UNITS), ALT)


def _rod(canvas: Canvas, foot: float) -> None:
    """Draw the rod with its scale, which counts from its end."""
    canvas.in_front()
    canvas.shape(box(ROD - 24, foot - (END + 1) * UNITS, ROD + 24, foot), "part")
    for step in range(int(END / GRADUATION) + 1):
        height = foot - step * GRADUATION * UNITS
        long = 22 if step % 10 == 0 else 15 if step % 2 == 0 else 8
        canvas.line([(ROD - 24, height), (ROD - 24 + long, height)], "thin")
        if step % 10 == 0 and step:
            canvas.words((ROD + 3, height), f"{step * GRADUATION:g}", "small", "start")
    for height in (FACE, FACE - BEAM * UNITS):
        canvas.line([(ROD - 30, height), (ROD - 24, height)])
        canvas.line([(ROD + 24, height), (ROD + 30, height)])

"""Sketches of gaps: a bowed cover on its gasket, an arch between screws, a shaft in its bore."""

from fuelcircuits.drawings.canvas import Canvas, Point, box, ring
from fuelcircuits.drawings.number import Number
from fuelcircuits.drawings.picture import Picture, picture

__all__ = ["arch", "bow", "collar", "shaft"]

LEFT, RIGHT = 60.0, 420.0


def _curve(height: float, rise: float) -> list[Point]:
    """Return the lower face of a bowed cover, highest in its middle."""
    spots = [step / 24 for step in range(25)]
    return [(LEFT + (RIGHT - LEFT) * s, height - 4 * rise * s * (1 - s)) for s in spots]


def bow(deep: Number, gasket: Number) -> Picture:
    """Return a bowed cover on a flat body with a gasket between; the bow is drawn far too deep."""
    canvas, face, rise = Canvas((0.0, 0.0), 1.0), 130.0, 34.0
    canvas.casting([*_curve(face, rise), (RIGHT, 50), (LEFT, 50)], "cover")
    canvas.shape(box(LEFT, face, RIGHT, face + 16), "jet")
    canvas.casting(box(LEFT, face + 16, RIGHT, face + 70))
    canvas.measure((240, face - rise), (240, face))
    canvas.words((252, face - rise / 2), deep.text, "given halo", "start")
    canvas.measure((RIGHT + 14, face), (RIGHT + 14, face + 16))
    canvas.words((RIGHT + 24, face + 8), f"gasket {gasket.text}", "given halo", "start")
    canvas.words((LEFT + 40, 74), "cover", "small halo", "start")
    canvas.words((LEFT + 40, face + 46), "bowl", "small halo", "start")
    alt = (
        f"A cover bowed by {deep.text} on a flat bowl, with a gasket of {gasket.text} between. The "
        "bow is drawn far too deep."
    )
    return picture(canvas.drawn(), (580, 210), alt)


def arch(rise: Number, span: Number) -> Picture:
    """Return the gap that a bowed cover leaves between two screws; it is drawn far too high."""
    canvas, face = Canvas((0.0, 0.0), 1.0), 130.0
    canvas.casting([*_curve(face, 40.0), (RIGHT, 50), (LEFT, 50)], "cover")
    canvas.casting(box(LEFT, face, RIGHT, face + 50))
    for x in (LEFT, RIGHT):
        canvas.shape(box(x - 7, 40, x + 7, face + 34), "metal")
    canvas.measure((240, face - 40), (240, face))
    canvas.words((252, face - 20), rise.text, "given halo", "start")
    canvas.measure((LEFT, face + 70), (RIGHT, face + 70))
    canvas.words((240, face + 88), span.text, "given halo")
    alt = (
        f"A bowed cover between two screws {span.text} apart: the gap under it is {rise.text} high "
        "in the middle and nothing at the screws. It is drawn far too high."
    )
    return picture(canvas.drawn(), (480, 232), alt)


def _worn(across: Number) -> Canvas:
    """Return a shaft in a bore that has worn wide, from its end; the gap is drawn far too wide."""
    canvas, middle = Canvas((0.0, 0.0), 1.0), (150.0, 120.0)
    canvas.shape(ring(middle, 104), "part", "ground")
    canvas.hollow(ring(middle, 86))
    canvas.disc(middle, 66, "metal")
    canvas.measure((middle[0] - 66, middle[1]), (middle[0] + 66, middle[1]))
    canvas.words((middle[0], middle[1] - 14), across.text, "given halo")
    canvas.line([(middle[0] + 54, middle[1] - 54), (290, 36)], "thin")
    canvas.words((294, 52), "air comes in all round", "small halo", "start")
    return canvas


def shaft(across: Number, play: Number) -> Picture:
    """Return a shaft in its worn bore, which is wider by the play."""
    canvas = _worn(across)
    canvas.words((294, 32), f"bore {play.text} wider", "given halo", "start")
    alt = (
        f"A throttle shaft of {across.text} seen from its end in a bore that is {play.text} wider. "
        "The play is drawn far too wide."
    )
    return picture(canvas.drawn(), (470, 236), alt)


def collar(across: Number, area: Number) -> Picture:
    """Return a shaft in its worn bore, with the ring round it; the bore is asked for."""
    canvas = _worn(across)
    canvas.words((294, 32), f"ring {area.text}", "given halo", "start")
    canvas.measure((150.0 - 86, 246), (150.0 + 86, 246))
    for x in (150.0 - 86, 150.0 + 86):
        canvas.line([(x, 120), (x, 252)], "thin")
    canvas.words((150, 262), "bore?", "halo")
    alt = (
        f"A throttle shaft of {across.text} seen from its end. The ring between it and its bore "
        f"has {area.text}; the width of the bore is asked for. It is drawn far too wide."
    )
    return picture(canvas.drawn(), (470, 272), alt)

"""A vacuum gauge with two scales: inches of mercury outside, kilopascals inside."""

from math import cos, pi, sin

from fuelcircuits.drawings.canvas import Canvas, Point
from fuelcircuits.drawings.number import Number
from fuelcircuits.drawings.picture import Picture, picture

__all__ = ["GRADUATION", "dial"]

INHG, KPA = 3386.389, 1e3
"""Pascals of an inch of mercury (at 0 °C) and of a kilopascal."""
END, SWEEP, START = 30.0, 300.0, 120.0
"""End of the outer scale [inHg], and the angles that the scales cover and begin at [deg]."""
GRADUATION = 0.5
"""A small graduation of the outer scale [inHg]."""
MIDDLE: Point = (150.0, 150.0)
RIM, OUTER, INNER, TAIL = 138.0, 124.0, 80.0, 34.0
ALT = (
    "A round vacuum gauge with two scales: the outer one in inches of mercury from 0 to 30, a "
    "mark every half inch; the inner one in kilopascals from 0 to 100, a mark every 2. The pointer "
    "has a long thin end and a short broad one."
)


def dial(vacuum: Number) -> Picture:
    """Return a gauge that shows a vacuum."""
    canvas = Canvas((0.0, 0.0), 1.0)
    canvas.disc(MIDDLE, RIM)
    for step in range(int(END / GRADUATION) + 1):
        _mark(canvas, step * GRADUATION, step)
    for step in range(51):
        _inner(canvas, 2.0 * step)
    canvas.words((150, 234), "inHg (outside)", "small")
    canvas.words((150, 249), "kPa (inside)", "small")
    _pointer(canvas, _turn(vacuum.value / INHG))
    return picture(canvas.drawn(), (300, 300), ALT)


def _turn(inches: float) -> float:
    """Return the angle of a vacuum [rad], clockwise from the right."""
    return (START + SWEEP * inches / END) * pi / 180


def _at(turn: float, radius: float) -> Point:
    return MIDDLE[0] + radius * cos(turn), MIDDLE[1] + radius * sin(turn)


def _mark(canvas: Canvas, inches: float, step: int) -> None:
    """Draw a graduation of the outer scale: long at fives, middling at whole inches."""
    turn = _turn(inches)
    long = 15.0 if step % 10 == 0 else 10.0 if step % 2 == 0 else 6.0
    canvas.line(
        [_at(turn, OUTER + 8), _at(turn, OUTER + 8 - long)], "thin" if long < 15 else "line"
    )
    if step % 10 == 0:
        canvas.words(_at(turn, OUTER - 18), f"{inches:g}", "halo")


def _inner(canvas: Canvas, kilopascals: float) -> None:
    """Draw a graduation of the inner scale."""
    turn = _turn(kilopascals * KPA / INHG)
    long = 10.0 if kilopascals % 20 == 0 else 5.0
    canvas.line([_at(turn, INNER), _at(turn, INNER - long)], "thin")
    if kilopascals % 20 == 0:
        canvas.words(_at(turn, INNER - 20), f"{kilopascals:g}", "small")


def _pointer(canvas: Canvas, turn: float) -> None:
    """Draw the pointer: its long end is thin, its short one broad."""
    canvas.in_front()
    side = turn + pi / 2
    foot = [(MIDDLE[0] + wide * cos(side), MIDDLE[1] + wide * sin(side)) for wide in (2.2, -2.2)]
    canvas.shape([_at(turn, OUTER + 5), *foot], "solid")
    back = _at(turn + pi, TAIL)
    ends = [(back[0] + wide * cos(side), back[1] + wide * sin(side)) for wide in (5.0, -5.0)]
    canvas.shape([*foot, ends[1], ends[0]], "solid")
    canvas.disc(MIDDLE, 7.0, "metal")

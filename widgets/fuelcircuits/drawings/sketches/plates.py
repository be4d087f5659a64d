"""Sketches of the throttle plate, seen on its edge: its left side goes up as it opens."""

from math import cos, degrees, pi, sin

from fuelcircuits.drawings.canvas import Canvas, Point, arc, box, turned
from fuelcircuits.drawings.number import Number
from fuelcircuits.drawings.picture import Picture, picture

__all__ = ["corner", "leaf", "plate", "shadow", "slot"]

MM = 1e3


def _angle(canvas: Canvas, middle: Point, radius: float, angle: float, text: str) -> None:
    """Draw an angle left of `middle`, counted upwards from straight across."""
    way = arc(middle, radius, pi, pi + angle, 12)
    canvas.line(way, "thin", "words")
    canvas.head(way[-2], way[-1], "tip", "words")
    x, y = arc(middle, radius, pi, pi + angle / 2, 2)[-1]
    canvas.words((x - 6, y), text, "given halo", "end")


def plate(reach: Number, angle: Number) -> Picture:
    """Return half a plate from shaft to tip, the tip's height asked for."""
    canvas, shaft = Canvas((0.0, 0.0), 1.0), (400.0, 190.0)
    units = 300.0 / reach.value
    tip = (shaft[0] - reach.value * units * cos(angle.value), shaft[1] - 300 * sin(angle.value))
    canvas.line([(60, shaft[1]), (450, shaft[1])], "axis")
    canvas.shape(turned(box(shaft[0] - 300, 184, shaft[0] + 30, 196), shaft, angle.value), "metal")
    canvas.disc(shaft, 16)
    canvas.disc(shaft, 2, "solid")
    canvas.line([tip, (40, tip[1])], "thin")
    canvas.measure((50, shaft[1]), (50, tip[1]))
    canvas.words((40, (shaft[1] + tip[1]) / 2), "height?", "halo", "end")
    side = (18 * sin(angle.value), -18 * cos(angle.value))
    ends = [(x + side[0] * 1.2, y + side[1] * 1.2) for x, y in (shaft, tip)]
    canvas.measure(ends[0], ends[1])
    canvas.words(
        ((ends[0][0] + ends[1][0]) / 2 + 10, (ends[0][1] + ends[1][1]) / 2 - 14),
        reach.text,
        "given halo",
    )
    _angle(canvas, shaft, 150, angle.value, angle.text)
    alt = (
        f"Half a throttle plate seen on its edge: {reach.text} from the middle of the shaft to the "
        f"tip, raised by {angle.text} from straight across. The height of the tip is asked for."
    )
    return _moved(canvas, (-30.0, 40.0), (500, 190), alt)


def slot(foot: Number, width: Number, height: Number, edge: Number) -> Picture:
    """Return the slot in the bore's wall with the plate's edge before it, from two sides."""
    canvas, unit, plane = Canvas((0.0, 0.0), 1.0), 26e3, 260.0
    low, high = plane - foot.value * unit, plane - (foot.value + height.value) * unit
    thick = edge.value * unit
    rim = low - 0.30 * height.value * unit
    canvas.casting(box(60, high - 40, 100, high))
    canvas.casting(box(60, low, 100, plane + 20))
    canvas.shape(
        [
            (101, rim - thick / 2),
            (260, rim + 34 - thick / 2),
            (260, rim + 34 + thick / 2),
            (101, rim + thick / 2),
        ],
        "metal",
    )
    canvas.line([(40, plane), (300, plane)], "axis")
    canvas.words((266, plane - 9), "shaft's plane", "small halo", "end")
    canvas.measure((78, low), (78, plane))
    canvas.words((52, (low + plane) / 2), foot.text, "given halo", "end")
    canvas.measure((46, low), (46, high))
    for y in (low, high):
        canvas.line([(40, y), (62, y)], "thin")
    canvas.words((38, (low + high) / 2 - 10), height.text, "given halo", "end")
    canvas.measure((200, rim + 22 - thick / 2), (200, rim + 22 + thick / 2))
    canvas.words((214, rim + 4 - thick / 2), edge.text, "given halo", "start")
    left, right = 380.0, 380.0 + width.value * unit
    canvas.casting(box(340, high - 40, right + 40, plane + 20))
    canvas.shape(box(left, high, right, low), "paper", "insides")
    canvas.shape(box(left, high, right, low), "line")
    canvas.shape(box(340, rim - thick / 2, right + 40, rim + thick / 2), "metal", "ways")
    canvas.measure((left, low + 14), (right, low + 14))
    canvas.words(((left + right) / 2, low + 30), width.text, "given halo")
    canvas.words((right + 48, (high + rim - thick / 2) / 2), "above: bleeds", "small halo", "start")
    canvas.words((right + 48, rim), "edge", "small halo", "start")
    canvas.words((right + 48, (low + rim + thick / 2) / 2), "below: feeds", "small halo", "start")
    alt = (
        f"The slot in the bore's wall, from the side and from within the bore: its foot "
        f"{foot.text} above the shaft's plane, {width.text} wide, {height.text} high. The edge of "
        f"the plate, {edge.text} thick, stands across it and parts it. Where "
        "the edge stands is not to scale."
    )
    return _moved(canvas, (-40.0, high - 46), (620, plane - high + 72), alt)


def corner(half: Number, edge: Number, foot: Number) -> Picture:
    """Return a plate whose lower corner just meets the slot's foot, its angle asked for."""
    canvas, shaft, wall = Canvas((0.0, 0.0), 1.0), (400.0, 220.0), 100.0
    level, thick, slope = 96.0, 30.0, 0.36
    canvas.casting(box(wall - 40, level - 110, wall, level - 90))
    canvas.casting(box(wall - 40, level, wall, shaft[1] + 40))
    lower = [(wall + 1, level), (shaft[0] + 30, level + slope * (shaft[0] + 29 - wall))]
    canvas.shape([*lower, *((x, y - thick) for x, y in reversed(lower))], "metal")
    middle = (shaft[0], level + slope * (shaft[0] - wall) - thick / 2)
    canvas.disc(middle, 16)
    canvas.disc(middle, 2, "solid")
    canvas.line([(30, middle[1]), (450, middle[1])], "axis")
    canvas.line([middle, (wall + 1, level - thick / 2)], "axis", "words")
    canvas.measure((wall - 18, level), (wall - 18, middle[1]))
    canvas.words((wall - 46, (level + middle[1]) / 2), foot.text, "given halo", "end")
    canvas.measure((wall + 40, level + 14 - thick), (wall + 40, level + 14))
    canvas.words((wall + 54, level - 34), f"edge {edge.text}", "given halo", "start")
    canvas.words((wall - 46, level - 44), "slot", "halo", "end")
    canvas.line([(wall - 42, level - 44), (wall - 6, level - 44)], "thin")
    way = ((wall + shaft[0]) / 2 + 40, (level + middle[1]) / 2 - 46)
    canvas.words(way, f"reach {half.text}", "given halo", "start")
    turn = arc(middle, 170, pi, pi + 0.34, 12)
    canvas.line(turn, "thin", "words")
    canvas.words((middle[0] - 184, middle[1] - 26), "angle?", "halo", "end")
    alt = (
        f"A throttle plate on its edge: {half.text} from the shaft to the tip, {edge.text} thick. "
        f"The lower corner of its edge just meets the foot of the slot, {foot.text} above the "
        "shaft. The angle of the plate is asked for."
    )
    return _moved(canvas, (-30.0, -20.0), (500, 290), alt)


def _shut_and_open(
    canvas: Canvas, half: float, middle: tuple[float, float], shut: float, opened: float
) -> float:
    """Draw a plate in its bore, dashed where it is shut; return half the width of its shadow."""
    arm = half / cos(shut)
    for x in (middle[0] - half - 26, middle[0] + half):
        canvas.casting(box(x, 10, x + 26, 262))
    canvas.line([(60, middle[1]), (360, middle[1])], "axis")
    flat = box(middle[0] - arm, middle[1] - 3, middle[0] + arm, middle[1] + 3)
    canvas.shape(turned(flat, middle, shut), "hidden")
    canvas.shape(turned(flat, middle, opened), "metal")
    canvas.disc(middle, 7)
    return arm * cos(opened)


def leaf(shut: Number, opened: Number) -> Picture:
    """Return a plate that does not come right up, with what it leaves open on either side."""
    canvas, half, middle = Canvas((0.0, 0.0), 1.0), 110.0, (210.0, 130.0)
    wide = _shut_and_open(canvas, half, middle, shut.value, opened.value)
    for side in (-1, 1):
        canvas.line([(middle[0] + side * wide, middle[1]), (middle[0] + side * wide, 248)], "thin")
        canvas.measure((middle[0] + side * wide, 240), (middle[0] + side * half, 240))
        canvas.words((middle[0] + side * (wide + half) / 2, 226), "open", "small halo")
    _angle(canvas, middle, 150, shut.value, f"shut: {shut.text}")
    _angle(canvas, middle, 84, opened.value, "")
    canvas.words((350, 40), f"foot on the floor: {opened.text}", "given halo", "start")
    alt = (
        f"A throttle plate on its edge in its bore: dashed where it fills the bore, at {shut.text},"
        f" and drawn full at {opened.text}, as far as it comes with the foot on the floor. On "
        "either side of it a part of the bore is open."
    )
    return _moved(canvas, (-20.0, 0.0), (570, 270), alt)


def shadow(bore: Number, closed: Number, opened: Number) -> Picture:
    """Return a plate shut and open in its bore, with the shadow it throws along the bore."""
    canvas, half, middle = Canvas((0.0, 0.0), 1.0), 110.0, (210.0, 130.0)
    wide = _shut_and_open(canvas, half, middle, closed.value, opened.value)
    for x in (middle[0] - wide, middle[0] + wide):
        canvas.line([(x, middle[1]), (x, 240)], "thin")
    canvas.shape(box(middle[0] - wide, 240, middle[0] + wide, 248), "solid")
    canvas.words((middle[0], 258), "shadow: covered", "small halo")
    canvas.measure((middle[0] - half, 284), (middle[0] + half, 284))
    canvas.words((middle[0], 300), bore.text, "given halo")
    _angle(canvas, middle, 150, closed.value, f"shut: {closed.text}")
    _angle(canvas, middle, 84, opened.value, "")
    canvas.words((400, 40), f"open: {opened.text}", "given halo", "start")
    alt = (
        f"A throttle plate on its edge in a bore of {bore.text}: dashed where it fills the bore, "
        f"at {closed.text}, and drawn full at {opened.text}. Seen along the bore its shadow covers "
        "a part of the bore, and the rest is open."
    )
    assert degrees(opened.value) < 90.0
    return _moved(canvas, (-20.0, 0.0), (560, 312), alt)


def _moved(canvas: Canvas, corner: Point, size: Point, alt: str) -> Picture:
    shapes = f'<g transform="translate({-corner[0]:.1f} {-corner[1]:.1f})">{canvas.drawn()}</g>'
    return picture(shapes, size, alt)

"""Sketches of what turns or pushes: the choke's coil, a piston on its spring, a diaphragm."""

from math import cos, pi, sin

from fuelcircuits.drawings.canvas import Canvas, box
from fuelcircuits.drawings.number import Number
from fuelcircuits.drawings.picture import Picture, picture

__all__ = ["coil", "diaphragm", "piston", "wings"]


def coil(length: Number, thickness: Number) -> Picture:
    """Return a coil of two metals: held in its middle, its outer end on the plate's lever."""
    canvas, middle, turns = Canvas((-60.0, 20.0), 1.0), (170.0, 140.0), 3.5
    steps = [turns * 2 * pi * step / 160 for step in range(161)]
    way = [
        (middle[0] + (18 + 4.4 * at) * cos(at), middle[1] + (18 + 4.4 * at) * sin(at))
        for at in steps
    ]
    canvas.line(way, "line")
    canvas.line([(x * 0.985 + middle[0] * 0.015, y * 0.985 + middle[1] * 0.015) for x, y in way])
    canvas.disc(middle, 8, "metal")
    end = way[-1]
    canvas.line([end, (end[0] - 26, end[1] + 8)])
    canvas.disc((end[0] - 30, end[1] + 10), 7, "metal")
    canvas.words((end[0] - 44, end[1] + 26), "to the plate", "halo", "end")
    canvas.line([middle, (300, 40)], "thin")
    canvas.words((304, 36), "held here", "halo", "start")
    canvas.line([way[60], (300, 150)], "thin")
    canvas.words((304, 146), f"{length.text} long, unrolled", "given halo", "start")
    canvas.words((304, 164), f"{thickness.text} thick", "given halo", "start")
    alt = (
        f"A strip of two metals, {length.text} long and {thickness.text} thick, rolled into a "
        "coil. Its middle is held by the housing; its outer end turns the choke plate's lever."
    )
    return picture(canvas.drawn(), (560, 240), alt)


def _spring(canvas: Canvas, x: float, top: float, foot: float, wide: float) -> None:
    """Draw a spring seen from the side."""
    turns = 8
    step = (foot - top) / turns
    canvas.line([(x + (wide if n % 2 else -wide), top + step * n) for n in range(turns + 1)])


def piston(bore: Number) -> Picture:
    """Return a piston that a spring pushes up and manifold vacuum pulls down, with its rod."""
    canvas, left, right = Canvas((0.0, 0.0), 1.0), 150.0, 250.0
    canvas.casting(box(90, 40, 310, 240))
    canvas.hollow(box(left, 30, right, 220))
    canvas.shape(box(left + 3, 96, right - 3, 136), "metal")
    canvas.shape(box(194, 10, 206, 96), "metal")
    _spring(canvas, 200, 136, 220, 24)
    canvas.measure((left, 66), (right, 66))
    canvas.words((226, 52), bore.text, "given halo")
    canvas.arrow([(130, 10), (165, 10), (165, 90)], "air")
    canvas.words((126, 10), "outside air", "halo", "end")
    canvas.arrow([(240, 190), (340, 190)], "air")
    canvas.words((346, 186), "manifold vacuum", "halo", "start")
    canvas.line([(222, 168), (340, 150)], "thin")
    canvas.words((346, 146), "spring pushes up", "halo", "start")
    canvas.words((212, 6), "rod", "small halo", "start")
    alt = (
        f"A piston of {bore.text} in its bore. Above it is the outside air, below it manifold "
        "vacuum and a spring that pushes it up. It carries the metering rod."
    )
    return picture(canvas.drawn(), (500, 250), alt)


def diaphragm(bore: Number, stroke: Number) -> Picture:
    """Return the pull-off: a diaphragm between the air and vacuum, its spring, and its stop."""
    canvas, middle = Canvas((0.0, 0.0), 1.0), 130.0
    canvas.casting(box(150, 40, 330, 220), "cover")
    canvas.hollow(box(160, 52, 320, 208))
    canvas.line([(200, 52), (192, 90), (192, 170), (200, 208)], "line")
    canvas.shape(box(60, middle - 5, 192, middle + 5), "metal")
    canvas.shape(box(188, 92, 196, 168), "metal")
    canvas.line([(196 + 14 * n, middle + (20 if n % 2 else -20)) for n in range(9)])
    canvas.shape(box(252, 84, 258, 104), "solid")
    canvas.words((264, 78), "stop", "small halo", "start")
    canvas.measure((196, 68), (252, 68))
    canvas.words((224, 28), stroke.text, "given halo")
    canvas.line([(224, 34), (224, 64)], "thin")
    canvas.measure((144, 52), (144, 208))
    canvas.words((138, 60), bore.text, "given halo", "end")
    canvas.arrow([(300, middle + 56), (390, middle + 56)], "air")
    canvas.words((396, middle + 56), "manifold vacuum", "halo", "start")
    canvas.words((36, middle + 20), "to the choke plate", "halo", "start")
    canvas.words((60, 196), "air", "small halo", "start")
    alt = (
        f"A diaphragm of {bore.text} bore. Air stands on one side, manifold vacuum on the other, "
        f"where a spring holds against it; after {stroke.text} it meets its stop. Its link goes to "
        "the choke plate."
    )
    return picture(canvas.drawn(), (540, 234), alt)


def wings(area: Number, offset: Number) -> Picture:
    """Return a shut choke plate on a shaft off its middle, with the force of the air on it."""
    canvas, left, right, height = Canvas((0.0, 0.0), 1.0), 110.0, 370.0, 130.0
    middle, shaft = (left + right) / 2, (left + right) / 2 - 40.0
    for x in (left - 30, right):
        canvas.casting(box(x, 20, x + 30, 230))
    canvas.shape(box(left + 2, height - 5, right - 2, height + 5), "metal")
    canvas.disc((shaft, height), 9)
    canvas.disc((shaft, height), 2, "solid")
    canvas.line([(middle, 26), (middle, 210)], "axis")
    canvas.line([(shaft, height + 12), (shaft, 196)], "thin")
    canvas.arrow([(middle, 58), (middle, height - 8)], "air")
    canvas.words((middle + 10, 66), "force of the air", "halo", "start")
    canvas.measure((shaft, 186), (middle, 186))
    canvas.words((middle + 12, 186), offset.text, "given halo", "start")
    canvas.words((shaft - 12, height + 26), "shaft", "small halo", "end")
    canvas.words((right + 42, height), f"plate {area.text}", "given halo", "start")
    canvas.words((right + 42, height + 20), "shut by the coil", "small halo", "start")
    canvas.words((left - 42, 60), "outside air", "small halo", "end")
    canvas.words((left - 42, 200), "the engine pulls", "small halo", "end")
    alt = (
        f"A shut choke plate of {area.text} in the air horn. Its shaft sits {offset.text} off the "
        "plate's middle, and there, in the middle, the force of the air pushes down."
    )
    return _moved(canvas, alt)


def _moved(canvas: Canvas, alt: str) -> Picture:
    shapes = f'<g transform="translate(60 0)">{canvas.drawn()}</g>'
    return picture(shapes, (620, 240), alt)

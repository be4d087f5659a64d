"""Sketches of a needle on its screw, and of the nozzle that slopes up to its lip."""

from math import cos, sin

from fuelcircuits.drawings.canvas import Canvas, box, turned
from fuelcircuits.drawings.number import Number
from fuelcircuits.drawings.picture import Picture, picture

__all__ = ["nozzle", "screw"]


def screw(pitch: Number, turns: Number, seat: Number) -> Picture:
    """Return a mixture screw off its seat, with the ring that it leaves open, from the side."""
    canvas, half, height, rise = Canvas((0.0, 0.0), 1.0), 62.0, 120.0, 46.0
    for left, right in ((20.0, 200.0), (200.0 + 2 * half, 380.0 + 2 * half)):
        canvas.casting(box(left, height, right, height + 60))
    middle = 200.0 + half
    canvas.hollow(box(200, height - 4, 200 + 2 * half, height + 64))
    for up, kind in ((0.0, "hidden"), (rise, "metal")):
        foot = height + 74 - up
        canvas.shape(
            [
                (middle - 96, height - 74 - up),
                (middle + 96, height - 74 - up),
                (middle + 84, height - 30 - up),
                (middle + 4, foot),
                (middle - 4, foot),
                (middle - 84, height - 30 - up),
            ],
            kind,
        )
    canvas.line([(middle, 0), (middle, height + 96)], "axis")
    canvas.measure((200, height + 82), (200 + 2 * half, height + 82))
    canvas.words((middle, height + 100), f"seat {seat.text}", "given halo")
    side = middle + 110
    canvas.measure((side, height - 74 - rise), (side, height - 74))
    for y in (height - 74 - rise, height - 74):
        canvas.line([(middle + 96, y), (side + 10, y)], "thin")
    canvas.words(
        (side + 16, height - 74 - rise / 2), f"{turns.text} turns of", "given halo", "start"
    )
    canvas.words((side + 16, height - 58 - rise / 2), f"{pitch.text} each", "given halo", "start")
    canvas.line([(200 + 8, height + 8), (96, height - 40)], "thin")
    canvas.words((92, height - 48), "open ring", "halo", "end")
    canvas.words((middle - 100, height - 60), "shut", "small halo", "end")
    alt = (
        f"A screw with a pointed needle over its seat of {seat.text}. Dashed, it is shut and fills "
        f"the seat; drawn full, it has been backed out by {turns.text} turns of {pitch.text} each, "
        "and a ring is open round it. How far it has risen is not to scale."
    )
    return picture(canvas.drawn(), (560, height + 112), alt)


def nozzle(depth: Number, length: Number, slope: Number) -> Picture:
    """Return the main nozzle, which leaves the well below the fuel and slopes up to its lip."""
    canvas, level, root = Canvas((-30.0, 40.0), 1.0), 150.0, (150.0, 206.0)
    long = 250.0
    lip = (root[0] + long * cos(slope.value), root[1] - long * sin(slope.value))
    canvas.hollow(box(60, 60, 150, 290))
    canvas.pool(box(60, level, 150, 290))
    tube = turned(box(root[0], root[1] - 9, root[0] + long, root[1] + 9), root, -slope.value)
    canvas.shape(tube, "paper")
    canvas.shape(tube, "metal")
    canvas.line([root, lip], "axis")
    canvas.line([(30, level), (lip[0] + 60, level)], "thin")
    canvas.words((lip[0] + 64, level), "fuel level", "small halo", "start")
    canvas.line([(root[0], root[1]), (root[0] + 190, root[1])], "thin")
    canvas.measure((40, level), (40, root[1]))
    canvas.line([(34, root[1]), root], "thin")
    canvas.words((32, (level + root[1]) / 2), depth.text, "given halo", "end")
    away = (-22 * sin(slope.value), -22 * cos(slope.value))
    ends = [(x + away[0], y + away[1]) for x, y in (root, lip)]
    canvas.measure(ends[0], ends[1])
    canvas.words(
        ((ends[0][0] + ends[1][0]) / 2 - 10, (ends[0][1] + ends[1][1]) / 2 - 14),
        length.text,
        "given halo",
    )
    canvas.words((root[0] + 196, root[1] - 14), slope.text, "given halo", "start")
    canvas.words((lip[0] + 10, lip[1] - 14), "lip", "halo", "start")
    canvas.words((105, 278), "well", "small halo")
    alt = (
        f"The main nozzle leaves the well {depth.text} below the fuel level and slopes up by "
        f"{slope.text} from level, {length.text} long, to its lip in the bore."
    )
    return picture(canvas.drawn(), (570, 256), alt)

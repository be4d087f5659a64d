"""Sketches of the charcoal canister: while the engine draws on it, and while the car stands."""

from fuelcircuits.drawings.canvas import Canvas, box
from fuelcircuits.drawings.number import Number
from fuelcircuits.drawings.picture import Picture, picture

__all__ = ["parked", "purged"]

LEFT, RIGHT, TOP, FOOT = 210.0, 350.0, 90.0, 230.0


def _canister() -> Canvas:
    """Return the can full of charcoal, with the hoses to the bowl and to the engine."""
    canvas = Canvas((0.0, 0.0), 1.0)
    canvas.shape(box(LEFT - 5, TOP - 5, RIGHT + 5, FOOT + 5), "metal", "ground")
    canvas.hollow(box(LEFT, TOP, RIGHT, FOOT))
    canvas.pool(box(LEFT, TOP + 26, RIGHT, FOOT - 26), "vapour")
    for height in (TOP + 26, FOOT - 26):
        canvas.line([(LEFT, height), (RIGHT, height)], "hidden")
    canvas.passage([(236, TOP + 6), (236, 50), (120, 50)], 12)
    canvas.passage([(324, TOP + 6), (324, 50), (440, 50)], 12)
    canvas.passage([(280, FOOT - 6), (280, 268)], 12)
    canvas.words((112, 50), "bowl", "halo", "end")
    canvas.words((450, 50), "engine", "halo", "start")
    canvas.words((294, 262), "open to the air", "small halo", "start")
    canvas.words((280, 160), "charcoal", "halo")
    return canvas


def purged(holds: Number, air: Number) -> Picture:
    """Return the canister while the engine draws air through it."""
    canvas = _canister()
    canvas.arrow([(280, 292), (280, 236)], "air")
    canvas.arrow([(344, 50), (432, 50)], "air")
    canvas.words((372, 32), f"air {air.text}", "given halo", "start")
    canvas.words((372, 84), "vapour goes with it", "small halo", "start")
    canvas.measure((LEFT - 18, TOP + 26), (LEFT - 18, FOOT - 26))
    canvas.words((LEFT - 26, 160), f"holds {holds.text}", "given halo", "end")
    alt = (
        f"A can of charcoal that holds {holds.text} of vapour. The engine draws {air.text} of air "
        "in at its foot, through the charcoal and out at its top; the air takes vapour along."
    )
    return picture(canvas.drawn(), (530, 296), alt)


def parked(vapour: Number, drawn: Number) -> Picture:
    """Return the canister with what a hot day brings and what a drive takes."""
    canvas = _canister()
    canvas.arrow([(124, 50), (236, 50), (236, TOP + 14)], "fuel")
    canvas.words((132, 26), f"parked: {vapour.text} in", "given halo", "start")
    canvas.arrow([(324, TOP + 14), (324, 50), (432, 50)], "air")
    canvas.words((330, 26), f"driven: {drawn.text} of it out", "given halo", "start")
    alt = (
        f"A can of charcoal. Each hot day {vapour.text} of vapour come in from the bowl while the "
        f"car stands; the drive home draws {drawn.text} of what it holds out to the engine."
    )
    return picture(canvas.drawn(), (530, 284), alt)

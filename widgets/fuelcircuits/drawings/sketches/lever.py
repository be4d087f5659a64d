"""Sketch of the float's lever, with its arms."""

from fuelcircuits.drawings.canvas import Canvas, arc, box
from fuelcircuits.drawings.number import Number
from fuelcircuits.drawings.picture import Picture, picture

__all__ = ["lever"]


def lever(needle_arm: Number, float_arm: Number) -> Picture:
    """Return fulcrum, needle and float with the two arms, and the forces on the lever."""
    canvas, unit = Canvas((0.0, 0.0), 1.0), 330.0 / float_arm.value
    fulcrum, height = 70.0, 120.0
    needle, middle = fulcrum + needle_arm.value * unit, fulcrum + 330.0
    canvas.shape(box(fulcrum - 20, height - 5, middle - 50, height + 5), "metal")
    outline = [
        *arc((middle - 30, height), 38, 1.5708, 4.7124),
        *arc((middle + 30, height), 38, -1.5708, 1.5708),
    ]
    canvas.shape(outline, "metal")
    canvas.shape(
        [(fulcrum, height), (fulcrum - 14, height + 30), (fulcrum + 14, height + 30)], "part"
    )
    canvas.disc((fulcrum, height), 6)
    canvas.shape(
        [
            (needle, height - 62),
            (needle + 11, height - 40),
            (needle + 11, height - 5),
            (needle - 11, height - 5),
            (needle - 11, height - 40),
        ],
        "metal",
    )
    canvas.arrow([(needle, height - 100), (needle, height - 66)], "fuel")
    canvas.arrow([(middle, height + 90), (middle, height + 42)], "air")
    canvas.arrow([(middle + 24, height + 44), (middle + 24, height + 78)], "line")
    for x in (fulcrum, needle, middle):
        canvas.line([(x, height + 36), (x, height + 134)], "thin")
    canvas.measure((fulcrum, height + 108), (needle, height + 108))
    canvas.words((needle + 8, height + 108), needle_arm.text, "given halo", "start")
    canvas.measure((fulcrum, height + 130), (middle, height + 130))
    canvas.words(((fulcrum + middle) / 2, height + 146), float_arm.text, "given halo")
    canvas.words((needle + 14, height - 88), "the fuel's push", "halo", "start")
    canvas.words((middle - 8, height + 74), "buoyancy", "halo", "end")
    canvas.words((middle + 34, height + 66), "weight", "halo", "start")
    canvas.words((fulcrum - 4, height - 18), "fulcrum", "small halo")
    alt = (
        f"A lever on its fulcrum at the left. The needle stands on it {needle_arm.text} from the "
        f"fulcrum and is pushed down by the fuel; the float's middle is {float_arm.text} from it, "
        "pushed up by its buoyancy and pulled down by its weight."
    )
    return picture(canvas.drawn(), (520, height + 156), alt)

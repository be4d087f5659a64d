"""Inlet, needle, lever and float in a section, the float at the card's setting."""

from fuelcircuits.drawings.canvas import Canvas, Point, arc, box
from fuelcircuits.drawings.section.layout import COVER, Layout
from fuelcircuits.physics.network.rig import Rig

__all__ = ["FloatPlaces", "float_and_needle", "inlet", "length", "places"]

MM = 1e3
FULCRUM, BEYOND = 9.0, 5.5
"""The fulcrum's place from the bowl's far wall, and how far the lever goes on beyond it."""
SEAT = 6.5
"""How far the seat hangs below the cover."""


class FloatPlaces:
    """Places of the float's parts [mm]."""

    def __init__(self, at: Layout, rig: Rig) -> None:
        bowl = rig.float_bowl
        self.fulcrum: Point = (at.far + FULCRUM, bowl.float_setting * MM + bowl.float_height * 500)
        self.needle = self.fulcrum[0] + bowl.needle_arm * MM
        self.middle: Point = (self.fulcrum[0] + bowl.float_arm * MM, self.fulcrum[1])
        self.stop: Point = (self.fulcrum[0] - BEYOND + 1, self.fulcrum[1] - 4.5)


def places(at: Layout, rig: Rig) -> FloatPlaces:
    """Return where the float's parts stand."""
    return FloatPlaces(at, rig)


def length(rig: Rig) -> float:
    """Return the length of bowl that float and inlet take [mm]."""
    bowl = rig.float_bowl
    return FULCRUM + (bowl.float_arm + bowl.float_length / 2) * MM + 4.0


def inlet(canvas: Canvas, at: Layout, rig: Rig) -> None:
    """Draw the inlet in the cover, with the seat at its end."""
    x, half = places(at, rig).needle, rig.float_bowl.seat_bore * MM / 2
    height = -COVER / 2
    canvas.passage([(at.far - 30, height), (x, height), (x, 0)], 3.4, "petrol")
    for side in (-1, 1):
        wall = box(x + side * half, -2.0, x + side * 4.2, SEAT)
        canvas.shape(wall, "paper")
        canvas.shape(wall, "jet")
    canvas.shape(box(x - half, -2.0, x + half, SEAT - 2), "petrol")
    canvas.arrow([(at.far - 14, height), (x, height), (x, SEAT - 3)], "fuel")


def float_and_needle(canvas: Canvas, at: Layout, rig: Rig) -> None:
    """Draw float, lever, fulcrum, needle and drop stop, the needle just shut."""
    here, bowl = places(at, rig), rig.float_bowl
    x, y = here.fulcrum
    half, high = bowl.float_length * MM / 2, bowl.float_height * MM / 2
    mx = here.middle[0]
    canvas.shape(box(x - 1.5, -0.5, x + 1.5, y), "part")
    canvas.shape(box(here.stop[0] - 1.2, -0.5, here.stop[0] + 1.2, here.stop[1]), "part")
    canvas.shape(box(x - BEYOND, y - 0.9, mx - half + 3, y + 0.9), "metal")
    canvas.disc((x, y), 1.7)
    canvas.disc((x, y), 0.5, "solid")
    ends = 5.5
    outline = [
        *arc((mx - half + ends, y), ends, 1.5708, 4.7124),
        *arc((mx + half - ends, y), ends, -1.5708, 1.5708),
    ]
    stretched = [(a, y + (b - y) * high / ends) for a, b in outline]
    canvas.shape(stretched, "metal")
    tip = SEAT - 1.2
    n = here.needle
    canvas.shape(
        [
            (n, tip - 2.2),
            (n + 1.9, tip + 2.4),
            (n + 1.9, y - 0.9),
            (n - 1.9, y - 0.9),
            (n - 1.9, tip + 2.4),
        ],
        "metal",
    )

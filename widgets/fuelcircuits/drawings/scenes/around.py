"""The engine around the carburettor: where air can get in, and what else acts, numbered."""

from fuelcircuits.drawings.canvas import Canvas, box, ring
from fuelcircuits.drawings.section.layout import layout
from fuelcircuits.drawings.section.scene import Scene
from fuelcircuits.physics.network.rig import Rig

__all__ = ["scene"]

AXIS, HEAD = 142.0, 176.0
"""Heights of the ports' axes and of the cylinder head's face."""


def scene(rig: Rig) -> Scene:
    """Return the numbered drawing, which is the same for every rig."""
    sheet = Scene(rig, layout(rig, (), 0.0), (0.0, 0.0, 570.0, 340.0), 1.0)
    canvas = sheet.canvas
    canvas.casting(box(66, 30, 134, 107))
    canvas.casting(box(50, 112, 330, 172), "cover")
    canvas.casting(box(335, 76, 474, 302))
    _ways(canvas)
    canvas.hollow(box(352, HEAD, 456, 314))
    _carburettor(canvas)
    _head(canvas)
    _hoses(canvas)
    _fuel(canvas)
    canvas.arrow([(100, 4), (100, AXIS), (340, AXIS)])
    canvas.arrow([(438, HEAD + 24), (438, AXIS), (532, AXIS), (532, 318), (564, 318)], "gas")
    _names(sheet)
    return sheet


def _ways(canvas: Canvas) -> None:
    """Draw the ways of air, of exhaust and of exhaust that goes back."""
    canvas.passage([(100, 18), (100, AXIS), (366, AXIS), (366, HEAD + 2)], 24)
    canvas.passage([(438, HEAD + 2), (438, AXIS), (532, AXIS), (532, 318), (574, 318)], 24)
    canvas.passage([(532, 262), (500, 262), (500, 330), (160, 330), (160, AXIS + 8)], 9)
    canvas.shape(box(142, 238, 178, 246), "metal")
    canvas.shape(ring((160, 226), 12), "part")
    canvas.line([(522, 196), (542, 214)])
    canvas.disc((532, 205), 3, "solid")


def _carburettor(canvas: Canvas) -> None:
    """Draw cleaner, throttle plate and shaft, and the two gaskets."""
    canvas.shape(box(52, 10, 148, 30), "part")
    for x in (62, 74, 126, 138):
        canvas.line([(x, 10), (x, 30)], "thin")
    canvas.line([(90, 82), (110, 88)])
    canvas.disc((100, 85), 4, "solid")
    canvas.shape(box(62, 107, 138, 112), "solid")
    canvas.shape(box(330, 108, 335, 176), "solid")


def _head(canvas: Canvas) -> None:
    """Draw valves, plug, distributor and piston."""
    for x in (366, 438):
        canvas.shape(
            [
                (x - 14, HEAD + 12),
                (x + 14, HEAD + 12),
                (x + 3, HEAD + 5),
                (x + 3, 62),
                (x - 3, 62),
                (x - 3, HEAD + 5),
            ],
            "metal",
        )
    canvas.shape(box(396, 66, 408, HEAD + 2), "part")
    canvas.line([(402, HEAD + 2), (402, HEAD + 9)])
    canvas.shape(box(388, 12, 430, 40), "part")
    canvas.line([(402, 40), (402, 66)])
    canvas.shape(box(354, 250, 454, 292), "metal")
    canvas.line([(354, 258), (454, 258)], "thin")


def _hoses(canvas: Canvas) -> None:
    """Draw the hoses that end in the manifold."""
    canvas.passage([(186, AXIS - 8), (186, 84), (216, 84)], 8)
    canvas.passage([(236, AXIS - 8), (236, 54), (300, 54)], 11)
    canvas.passage([(292, AXIS - 8), (292, 92), (346, 92)], 8)
    canvas.shape(box(302, 85, 322, 99), "metal")


def _fuel(canvas: Canvas) -> None:
    """Draw tank, pump, filter and pipe."""
    canvas.passage([(24, 300), (24, 60), (70, 60)], 5, "petrol")
    canvas.shape(box(6, 284, 66, 326), "part")
    canvas.hollow(box(10, 300, 62, 322), "petrol")
    canvas.shape(ring((24, 220), 13), "metal")
    canvas.shape(box(15, 130, 33, 168), "part")
    for height in (138, 146, 154, 162):
        canvas.line([(15, height), (33, height)], "thin")


def _names(sheet: Scene) -> None:
    """Give each part its number, along the way of air, spark, exhaust and fuel."""
    sheet.name("air-cleaner", (56, 20), "top")
    sheet.name("throttle-shaft", (101, 86), "top")
    sheet.name("flange-gasket", (137, 110), "top")
    sheet.name("vacuum-hose", (214, 84), "top")
    sheet.name("servo-hose", (298, 54), "top")
    sheet.name("crankcase-valve", (316, 92), "top")
    sheet.name("manifold-gasket", (332, 114), "top")
    sheet.name("distributor", (420, 26), "right")
    sheet.name("spark-plug", (403, 100), "right")
    sheet.name("intake-valve", (366, 80), "top")
    sheet.name("exhaust-valve", (440, 120), "right")
    sheet.name("heat-riser", (538, 210), "right")
    sheet.name("recirculation-valve", (160, 242), "bottom")
    sheet.name("exhaust-pipe", (548, 316), "right")
    sheet.name("fuel-tank", (40, 312), "left")
    sheet.name("fuel-pressure", (22, 222), "left")
    sheet.name("fuel-filter", (20, 150), "left")

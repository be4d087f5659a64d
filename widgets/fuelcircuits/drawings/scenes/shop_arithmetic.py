"""Pressures on one scale, from nothing at all, and a hole with what measures it."""

from fuelcircuits.drawings.canvas import box
from fuelcircuits.drawings.section.layout import layout
from fuelcircuits.drawings.section.scene import Scene
from fuelcircuits.physics.network.rig import Rig

__all__ = ["scene"]

UNITS = 2.2e-3
"""Units of a pascal."""
BAROMETER, MANIFOLD = 101_325.0, 38e3
"""The standard barometer (ISO 2533), and a manifold at idle, only to show an order [Pa]."""
FOOT = 330.0


def scene(rig: Rig) -> Scene:
    """Return the numbered drawing; the fuel's pressure is the card's."""
    sheet = Scene(rig, layout(rig, (), 0.0), (0.0, 0.0, 520.0, 350.0), 1.0)
    fuel = BAROMETER + rig.float_bowl.fuel_pressure
    heights = {each: FOOT - each * UNITS for each in (0.0, MANIFOLD, BAROMETER, fuel)}
    canvas = sheet.canvas
    canvas.arrow([(60, FOOT), (60, 12)], "line", "parts")
    for pressure, height in heights.items():
        canvas.line([(50, height), (250, height)], "level" if pressure == BAROMETER else "line")
    nothing, manifold, outside, pump = heights.values()
    canvas.measure((110, nothing), (110, manifold))
    canvas.words((120, (nothing + manifold) / 2), "absolute pressure", "halo", "start")
    canvas.measure((150, outside), (150, manifold))
    canvas.measure((190, outside), (190, pump))
    _jet(sheet)
    sheet.name("nothing", (56, nothing))
    sheet.name("manifold-pressure", (58, manifold))
    sheet.name("air-outside", (58, outside))
    sheet.name("fuel-pressure", (58, pump))
    sheet.name("vacuum", (152, (outside + manifold) / 2), "right")
    sheet.name("gauge-pressure", (192, (outside + pump) / 2), "right")
    sheet.name("jet", (438, 262), "right")
    sheet.name("drill", (390, 190), "right")
    return sheet


def _jet(sheet: Scene) -> None:
    """Draw a jet, cut open, with the shank of a drill in it."""
    for side in (-1, 1):
        sheet.canvas.shape(box(390 + side * 26, 240, 390 + side * 70, 284), "jet")
    sheet.canvas.shape(box(366, 150, 414, 300), "metal")

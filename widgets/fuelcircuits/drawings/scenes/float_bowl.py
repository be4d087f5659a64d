"""The float circuit, numbered along the fuel."""

from fuelcircuits.drawings.section import barrel as air
from fuelcircuits.drawings.section import float_bowl as floats
from fuelcircuits.drawings.section import high_speed as main
from fuelcircuits.drawings.section.scene import Scene
from fuelcircuits.physics.network.rig import Rig

__all__ = ["scene"]


def scene(rig: Rig) -> Scene:
    """Return the numbered section of a rig."""
    sheet = Scene.of(rig, ("jet",), bowl=floats.length(rig), scale=4.6)
    sheet = sheet.within(top=-14.0, right=sheet.at.column + 9, foot=sheet.at.well + 6)
    canvas, at = sheet.canvas, sheet.at
    air.bowl_castings(canvas, at)
    air.bowl(canvas, at)
    main.main_jet(canvas, at, rig)
    floats.inlet(canvas, at, rig)
    floats.float_and_needle(canvas, at, rig)
    here = floats.places(at, rig)
    x, y = here.fulcrum
    sheet.name("fuel-inlet", (at.far - 2, -4.5))
    sheet.name("needle-seat", (here.needle + 3, 4.5), "right")
    sheet.name("needle", (here.needle, y - 3), "left")
    sheet.name("lever", (here.needle + 12, y), "right")
    sheet.name("fulcrum", (x, y))
    sheet.name("drop-stop", (here.stop[0], here.stop[1] - 2))
    sheet.name("float", (here.middle[0], y + 3), "right")
    sheet.name("bowl", (here.middle[0] - 30, at.floor - 6))
    sheet.name("main-jet", (at.x["jet"] + 2, at.floor - 0.5), "right")
    return sheet

"""What is set on a carburettor, numbered in the order in which it is set."""

from fuelcircuits.drawings.section import choke, vents
from fuelcircuits.drawings.section import float_bowl as floats
from fuelcircuits.drawings.section import low_speed as idle
from fuelcircuits.drawings.section.scene import Scene
from fuelcircuits.drawings.section.stop import stop
from fuelcircuits.drawings.section.whole import whole
from fuelcircuits.physics.network.rig import Rig

__all__ = ["scene"]


def scene(rig: Rig) -> Scene:
    """Return the numbered section of a rig."""
    sheet, _, pumped = whole(rig, 4.0)
    sheet = _wider(sheet)
    canvas, at = sheet.canvas, sheet.at
    here, floating = idle.port(at, rig), floats.places(at, rig)
    held = stop(canvas, at, rig, 1.45)
    choke.coil(canvas, at, rig)
    coil = choke.ChokePlaces(at, rig).coil
    sheet.name("lever", (floating.needle + 10, floating.fulcrum[1]), "top")
    sheet.name("float", (floating.middle[0] - 8, floating.middle[1] + 4), "top")
    if rig.vents.outside_bore:
        x, lift = vents.flap(canvas, at, rig, 44.0)
        sheet.name("outside-vent", (x - 4, lift - 0.8), "top")
    sheet.name("pump-rod", (pumped.x, -20.0), "top")
    sheet.name("idle-screw", (held.idle[0], held.idle[1] - 8), "top")
    sheet.name("mixture-screw", (at.wall - 13, here.screw + 16), "bottom")
    sheet.name("choke-coil", (coil[0] - 6, coil[1] + 6), "top")
    sheet.name("fast-idle-cam", (held.cam[0] + 2, held.cam[1] - 2), "top")
    sheet.name("fast-idle-screw", (held.fast[0], held.fast[1] + 6), "bottom")
    sheet.name("throttle-lever", (at.bore + 12, at.shaft), "bottom")
    return sheet


def _wider(sheet: Scene) -> Scene:
    """Return the same drawing with room at its right."""
    left, top, _, foot = sheet.window
    sheet.window = (left, top, sheet.at.bore + 53, foot)
    return sheet

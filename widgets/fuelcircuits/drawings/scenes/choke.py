"""The choke, numbered from the coil to the throttle."""

from fuelcircuits.drawings.section import barrel as air
from fuelcircuits.drawings.section import choke
from fuelcircuits.drawings.section.scene import Scene
from fuelcircuits.physics.network.rig import Rig

__all__ = ["scene"]


def scene(rig: Rig) -> Scene:
    """Return the numbered section of a rig."""
    sheet = Scene.of(rig, ("down",), scale=4.0)
    at = sheet.at
    sheet = sheet.within(
        left=-at.horn - 54, right=at.horn + 50, top=at.choke - 21, foot=at.shaft + 34
    )
    canvas = sheet.canvas
    air.castings(canvas, at, bowl=False, neck=10)
    air.barrel(canvas, at)
    choke.coil(canvas, at, rig)
    air.booster(canvas, at, rig)
    angle = rig.choke.pull_off_angle
    air.choke_plate(canvas, at, rig, angle)
    air.throttle_plate(
        canvas, at, rig, rig.air_path.throttle_closed_angle + rig.choke.cam_openings[0]
    )
    pin = choke.levers(canvas, at, rig, angle)
    choke.pull_off(canvas, at, rig, pin, 1.0)
    choke.cam(canvas, at, rig, angle)
    here = choke.ChokePlaces(at, rig)
    sheet.name("choke-coil", (here.coil[0] - 6, here.coil[1] + 6))
    sheet.name("choke-shaft", (here.shaft[0] + 1, here.shaft[1] - 1.6), "right")
    sheet.name("choke-plate", (-12, at.choke - 4.5), "right")
    sheet.name("choke-lever", ((pin[0] + here.shaft[0]) / 2, (pin[1] + here.shaft[1]) / 2), "right")
    sheet.name("pull-off", (here.can[0] + 6, here.can[1] - 6), "right")
    sheet.name("vacuum-line", (here.can[0] + 14, here.port - 14), "right")
    sheet.name("fast-idle-cam", (here.cam[0] - 4, here.cam[1] - 4))
    sheet.name("fast-idle-screw", (here.cam[0], at.shaft - 5))
    sheet.name("throttle-lever", (-at.bore - 6, at.shaft + 1))
    sheet.name("throttle-plate", (9, at.shaft + 2.4), "right")
    return sheet

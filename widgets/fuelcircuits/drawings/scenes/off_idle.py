"""The idle port, numbered along the froth."""

from fuelcircuits.drawings.section import barrel as air
from fuelcircuits.drawings.section import low_speed as idle
from fuelcircuits.drawings.section.scene import Scene
from fuelcircuits.physics.network.rig import Rig

__all__ = ["scene"]


def scene(rig: Rig) -> Scene:
    """Return the numbered section of a rig."""
    sheet = Scene.of(rig, ("valve", "down"), scale=8.2)
    at = sheet.at
    sheet = sheet.within(left=at.wall - 27, right=at.bore + 9, top=-6.0, foot=at.flange + 10)
    canvas = sheet.canvas
    air.castings(canvas, at, bowl=False, neck=22)
    air.barrel(canvas, at)
    here = idle.port(at, rig)
    idle.down_passage(canvas, at, rig)
    idle.idle_port(canvas, at, rig)
    idle.mixture_screw(canvas, at, rig)
    idle.bleed_valve(canvas, at, rig)
    air.booster(canvas, at, rig)
    angle = rig.air_path.throttle_closed_angle
    air.throttle_plate(canvas, at, rig, angle)
    middle = (here.top + here.foot) / 2
    canvas.arrow([(at.wall + 5, here.top + 1.2), (here.x + 1, here.top + 1.2)], "air")
    canvas.arrow([(at.wall - 1.5, here.screw - 0.3), (at.wall + 6, here.screw + 4)], "fuel")
    sheet.name("economizer", (at.x["down"] - 1.4, rig.low_speed.lift * 0 + 8.0))
    sheet.name("idle-chamber", (here.x - 1, here.foot + 2))
    sheet.name("slot", (at.wall - 1, middle), "right")
    sheet.name("plate-edge", (at.wall + 0.9, at.shaft - 2.9), "right")
    sheet.name("mixture-screw", (at.wall - 9.5, here.screw + 12))
    sheet.name("bleed-valve", (at.x["valve"] - 1.2, here.roof - 6))
    sheet.name("throttle-plate", (8, at.shaft + 1.6), "right")
    sheet.name("manifold", (6, at.flange + 5), "right")
    return sheet

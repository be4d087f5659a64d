"""The low-speed circuit, numbered along the fuel."""

from fuelcircuits.drawings.section import barrel as air
from fuelcircuits.drawings.section import high_speed as main
from fuelcircuits.drawings.section import low_speed as idle
from fuelcircuits.drawings.section.scene import Scene
from fuelcircuits.physics.network.rig import Rig

__all__ = ["scene"]


def scene(rig: Rig) -> Scene:
    """Return the numbered section of a rig."""
    sheet = Scene.of(rig, ("down", "main", "idle", "jet"), bowl=14.0)
    sheet = sheet.within(top=-24.0, foot=sheet.at.flange + 14)
    canvas, at = sheet.canvas, sheet.at
    air.castings(canvas, at)
    air.barrel(canvas, at)
    air.bowl(canvas, at)
    main.main_jet(canvas, at, rig)
    main.main_well(canvas, at)
    for draw in (idle.idle_tube, idle.idle_channel, idle.idle_port, idle.mixture_screw):
        draw(canvas, at, rig)
    air.booster(canvas, at, rig)
    air.throttle_plate(canvas, at, rig, rig.air_path.throttle_closed_angle)
    here = idle.port(at, rig)
    cross = at.level - rig.low_speed.lift * 1e3
    x = at.x["idle"]
    sheet.name("bowl", (at.far + 9, at.floor - 9))
    sheet.name("main-jet", (at.x["jet"] - 2, at.floor - 0.5))
    sheet.name("low-speed-jet", (x - 1.4, at.level + rig.low_speed.tube_depth * 1e3 + 1.5))
    sheet.name("idle-tube", (x, at.level - 3))
    sheet.name("idle-air-bleed", (x + 2.4, -0.4))
    sheet.name("by-pass", (at.wall - 1.5, cross - 1.2), "right")
    sheet.name("economizer", (at.x["down"] + 1.4, cross + 7), "right")
    sheet.name("idle-chamber", (here.x, here.foot + 2), "right")
    sheet.name("slot", (at.wall - 1, (here.top + here.foot) / 2), "right")
    sheet.name("throttle-plate", (9, at.shaft + 1.6), "right")
    sheet.name("mixture-screw", (at.wall - 13, here.screw + 16.5))
    return sheet

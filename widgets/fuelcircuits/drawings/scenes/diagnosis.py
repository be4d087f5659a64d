"""The whole carburettor, numbered circuit by circuit: air, bowl, idle, main, power, pump."""

from fuelcircuits.drawings.section import float_bowl as floats
from fuelcircuits.drawings.section import low_speed as idle
from fuelcircuits.drawings.section.scene import Scene
from fuelcircuits.drawings.section.whole import whole
from fuelcircuits.physics.network.rig import Rig

__all__ = ["scene"]


def scene(rig: Rig) -> Scene:
    """Return the numbered section of a rig."""
    sheet, rods, pumped = whole(rig, 4.4)
    at, here = sheet.at, idle.port(sheet.at, rig)
    floating = floats.places(at, rig)
    cross = at.level - rig.low_speed.lift * 1e3
    x = at.x["idle"]
    sheet.name("choke-plate", (-1, at.choke + 10), "top")
    sheet.name("booster", (4.8, at.lip - 3), "top")
    sheet.name("main-venturi", (at.venturi + 0.6, at.throat), "bottom")
    sheet.name("throttle-plate", (10, at.shaft + 1.8), "bottom")
    sheet.name("fuel-inlet", (at.far - 2, -6), "top")
    sheet.name("needle-seat", (floating.needle - 3, 4.5), "top")
    sheet.name("needle", (floating.needle, floating.fulcrum[1] - 3), "top")
    sheet.name("float", (floating.middle[0] - 8, floating.middle[1] + 4), "top")
    sheet.name("bowl", (floating.middle[0] - 6, at.floor - 9), "bottom")
    sheet.name("main-jet", (at.x["jet"] - 2, at.floor), "bottom")
    sheet.name("low-speed-jet", (x, at.level + rig.low_speed.tube_depth * 1e3 + 1.5), "bottom")
    sheet.name("idle-air-bleed", (x + 4.2, -1.4), "top")
    sheet.name("economizer", (at.x["down"], cross + 7), "bottom")
    sheet.name("bleed-valve", (at.x["valve"], here.roof - 6), "bottom")
    sheet.name("slot", (at.wall - 1, (here.top + here.foot) / 2), "bottom")
    sheet.name("mixture-screw", (at.wall - 13, here.screw + 16), "bottom")
    sheet.name("main-well", (at.x["main"], at.well - 4), "bottom")
    if rig.high_speed.air_bleed_bore:
        sheet.name("main-air-bleed", ((at.wall + at.x["main"]) / 2 - 1, -3), "top")
    sheet.name("nozzle", (at.wall + 1, at.lip + 4), "bottom")
    sheet.name("power-piston", (rods.x - 2, rods.head[1] + 4), "top")
    sheet.name("metering-rod", (rods.rod, at.level + 4), "bottom")
    sheet.name("vacuum-passage", (rods.x, at.well + 6), "bottom")
    sheet.name("pump-plunger", (pumped.x - 4, pumped.top + 1), "top")
    sheet.name("inlet-check", pumped.inlet, "bottom")
    sheet.name("discharge-check", pumped.outlet, "top")
    sheet.name("pump-jet", (at.wall - 4.5, -9.6), "top")
    return sheet

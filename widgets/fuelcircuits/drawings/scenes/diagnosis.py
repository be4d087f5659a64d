"""The whole carburettor, numbered circuit by circuit: air, bowl, idle, main, power, pump."""

from fuelcircuits.drawings.section import float_bowl as floats
from fuelcircuits.drawings.section import low_speed as idle
from fuelcircuits.drawings.section.scene import Scene
from fuelcircuits.drawings.section.whole import whole
from fuelcircuits.physics.network.rig import Rig

__all__ = ["scene"]


def scene(rig: Rig) -> Scene:
    """Return the numbered section of a rig."""
    sheet, rods, pumped = whole(rig)
    at, here = sheet.at, idle.port(sheet.at, rig)
    floating = floats.places(at, rig)
    cross = at.level - rig.low_speed.lift * 1e3
    x = at.x["idle"]
    sheet.name("choke-plate", (-1, at.choke + 10), "right")
    sheet.name("booster", (4.8, at.lip - 3), "right")
    sheet.name("main-venturi", (at.venturi + 0.6, at.throat), "right")
    sheet.name("throttle-plate", (10, at.shaft + 1.8), "right")
    sheet.name("fuel-inlet", (at.far - 2, -6))
    sheet.name("needle-seat", (floating.needle - 3, 4.5))
    sheet.name("needle", (floating.needle, floating.fulcrum[1] - 3))
    sheet.name("float", (floating.middle[0] - 8, floating.middle[1] + 4))
    sheet.name("bowl", (floating.middle[0] - 6, at.floor - 9))
    sheet.name("main-jet", (at.x["jet"] - 2, at.floor))
    sheet.name("low-speed-jet", (x, at.level + rig.low_speed.tube_depth * 1e3 + 1.5))
    sheet.name("idle-air-bleed", (x + 4.2, -1.4))
    sheet.name("economizer", (at.x["down"], cross + 7), "right")
    sheet.name("bleed-valve", (at.x["valve"], here.roof - 6), "right")
    sheet.name("slot", (at.wall - 1, (here.top + here.foot) / 2), "right")
    sheet.name("mixture-screw", (at.wall - 13, here.screw + 16), "right")
    sheet.name("main-well", (at.x["main"], at.well - 4), "right")
    if rig.high_speed.air_bleed_bore:
        sheet.name("main-air-bleed", ((at.wall + at.x["main"]) / 2 - 1, -3), "right")
    sheet.name("nozzle", (at.wall + 1, at.lip + 4), "right")
    sheet.name("power-piston", (rods.x - 2, rods.head[1] + 4))
    sheet.name("metering-rod", (rods.rod, at.level + 4))
    sheet.name("vacuum-passage", (rods.x, at.well + 6))
    sheet.name("pump-plunger", (pumped.x - 4, pumped.top + 1))
    sheet.name("inlet-check", pumped.inlet)
    sheet.name("discharge-check", pumped.outlet)
    sheet.name("pump-jet", (at.wall - 4.5, -9.6), "right")
    return sheet

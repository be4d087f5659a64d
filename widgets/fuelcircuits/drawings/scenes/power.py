"""The power circuit, numbered from the vacuum to the fuel."""

from fuelcircuits.drawings.section import barrel as air
from fuelcircuits.drawings.section import high_speed as main
from fuelcircuits.drawings.section import power
from fuelcircuits.drawings.section.scene import Scene
from fuelcircuits.physics.network.rig import Rig

__all__ = ["scene"]


def scene(rig: Rig) -> Scene:
    """Return the numbered section of a rig."""
    sheet = Scene.of(rig, ("main", "jet", "piston"), bowl=12.0, scale=5.4)
    sheet = sheet.within(top=-12.0, right=sheet.at.wall + 4, foot=sheet.at.well + 12)
    canvas, at = sheet.canvas, sheet.at
    air.castings(canvas, at)
    air.barrel(canvas, at)
    air.bowl(canvas, at)
    main.main_jet(canvas, at, rig)
    main.main_well(canvas, at)
    main.nozzle(canvas, at, rig)
    here = power.power(canvas, at, rig)
    sheet.name("vacuum-passage", (here.x, at.well + 1))
    sheet.name("power-piston", (here.x - 2, here.head[1] + 4))
    sheet.name("power-spring", (here.x - 3, here.foot - 4))
    sheet.name("hanger", (here.x + 6, here.bar), "right")
    sheet.name("metering-rod", (here.rod, at.level - 2), "right")
    sheet.name("main-jet", (at.x["jet"] + 2, at.floor - 0.5), "right")
    sheet.name("main-well", (at.x["main"], at.well - 4), "right")
    return sheet

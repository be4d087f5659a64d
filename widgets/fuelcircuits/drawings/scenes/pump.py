"""The accelerator pump, numbered from the throttle to the shot."""

from fuelcircuits.drawings.section import barrel as air
from fuelcircuits.drawings.section import pump
from fuelcircuits.drawings.section.scene import Scene
from fuelcircuits.physics.network.rig import Rig

__all__ = ["scene"]


def scene(rig: Rig) -> Scene:
    """Return the numbered section of a rig."""
    sheet = Scene.of(rig, ("shot", "pump"), bowl=14.0, scale=4.9)
    sheet = sheet.within(top=-31.0, foot=sheet.at.flange + 6)
    canvas, at = sheet.canvas, sheet.at
    air.castings(canvas, at)
    air.barrel(canvas, at)
    air.bowl(canvas, at)
    air.booster(canvas, at, rig)
    air.throttle_plate(canvas, at, rig, 0.45)
    here = pump.pump(canvas, at, rig)
    sheet.name("pump-rod", (here.x, -15.0))
    sheet.name("duration-spring", (here.x - 2.5, here.collar + 6))
    sheet.name("bowl", (at.far + 6, at.floor - 14))
    sheet.name("inlet-check", (here.inlet[0] - 1.2, here.inlet[1]))
    sheet.name("pump-plunger", (here.x + here.plate - 2, here.top + 1), "right")
    sheet.name("discharge-check", (here.outlet[0] + 1, here.outlet[1]), "right")
    sheet.name("pump-jet", (at.wall - 4.5, -11), "right")
    sheet.name("pump-nozzle", (here.tip[0] - 0.8, here.tip[1] - 0.8), "right")
    sheet.name("throttle-plate", (8, at.shaft + 4), "right")
    return sheet

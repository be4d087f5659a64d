"""The way of the air, numbered from the cleaner down."""

from fuelcircuits.drawings.section import barrel as air
from fuelcircuits.drawings.section import high_speed as main
from fuelcircuits.drawings.section.scene import Scene
from fuelcircuits.physics.network.rig import Rig

__all__ = ["scene"]


def scene(rig: Rig) -> Scene:
    """Return the numbered section of a rig."""
    sheet = Scene.of(rig, ("main",), scale=4.4)
    at = sheet.at
    wide = at.horn + 30
    sheet = sheet.within(left=-wide, right=wide, top=at.top - 20, foot=at.flange + 9)
    canvas = sheet.canvas
    air.castings(canvas, at, bowl=False, neck=18)
    air.barrel(canvas, at)
    air.cleaner(canvas, at)
    main.nozzle_stub(canvas, at, rig)
    air.booster(canvas, at, rig)
    main.nozzle(canvas, at, rig)
    air.choke_plate(canvas, at, rig, 1.5)
    air.throttle_plate(canvas, at, rig, 0.5)
    canvas.arrow([(3, at.choke - 12), (3, at.lip + 16)], "air")
    for side in (-1, 1):
        x = side * (at.venturi + 5) / 2 - side * 0.8
        canvas.arrow([(side * 11, at.choke + 10), (x, at.lip - 4), (x, at.throat + 6)], "air")
    sheet.name("air-cleaner", (-at.horn - 9, at.top - 9))
    sheet.name("air-horn", (at.horn - 3, at.choke - 9), "right")
    sheet.name("choke-plate", (-rig.choke.plate_offset * 1e3, at.choke + 12))
    sheet.name("booster", (4.3, at.lip + 1), "right")
    sheet.name("nozzle", (-at.bore + 2, at.lip + 4.2))
    sheet.name("main-venturi", (at.venturi + 0.6, at.throat), "right")
    sheet.name("throttle-plate", (-9, at.shaft - 5))
    sheet.name("manifold", (6, at.flange + 4), "right")
    return sheet

"""The high-speed circuit, numbered along the fuel."""

from fuelcircuits.drawings.section import barrel as air
from fuelcircuits.drawings.section import high_speed as main
from fuelcircuits.drawings.section.scene import Scene
from fuelcircuits.physics.network.rig import Rig

__all__ = ["scene"]


def scene(rig: Rig) -> Scene:
    """Return the numbered section of a rig."""
    bled = rig.high_speed.air_bleed_bore > 0
    sheet = Scene.of(rig, ("main", "jet"), bowl=16.0)
    sheet = sheet.within(top=-24.0, foot=sheet.at.flange + 8)
    canvas, at = sheet.canvas, sheet.at
    air.castings(canvas, at)
    air.barrel(canvas, at)
    air.bowl(canvas, at)
    main.main_jet(canvas, at, rig)
    main.main_well(canvas, at)
    if bled:
        main.bleed_tube(canvas, at, rig)
    air.booster(canvas, at, rig)
    main.nozzle(canvas, at, rig)
    air.throttle_plate(canvas, at, rig, 0.55)
    canvas.arrow(
        [(at.far + 8, at.floor - 9), (at.x["jet"], at.floor - 6), (at.x["jet"], at.well - 2)],
        "fuel",
    )
    canvas.arrow([(0, at.lip), (0, at.shaft - 14)], "fuel")
    canvas.arrow([(3, -20), (3, at.lip - 4)], "air")
    canvas.line([(at.far, at.level), (at.bore, at.level)], "level", "ways")
    sheet.name("bowl", (at.far + 9, at.floor - 12))
    sheet.name("main-jet", (at.x["jet"] - 2, at.floor - 0.5))
    sheet.name("main-well", (at.x["main"], at.well - 3), "right")
    if bled:
        sheet.name("main-air-bleed", ((at.wall + at.x["main"]) / 2 - 1, -3 - 1.5))
        sheet.name("bleed-tube", (at.x["main"] - 1.5, at.level - 5))
    sheet.name("nozzle", (at.wall - 3, at.lip + 5), "right")
    sheet.name("nozzle-lip", (-rig.air_path.booster_throat * 500 + 0.6, at.lip), "right")
    sheet.name("booster", (rig.air_path.booster_outside * 500 - 1, at.lip - 3), "right")
    sheet.name("main-venturi", (at.venturi + 0.5, at.throat), "right")
    return sheet

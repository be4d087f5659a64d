"""The whole carburettor cut open, with no names yet: all circuits in one plane."""

from fuelcircuits.drawings.section import barrel as air
from fuelcircuits.drawings.section import float_bowl as floats
from fuelcircuits.drawings.section import high_speed as main
from fuelcircuits.drawings.section import low_speed as idle
from fuelcircuits.drawings.section import power, pump
from fuelcircuits.drawings.section.scene import Scene
from fuelcircuits.physics.network.rig import Rig

__all__ = ["whole"]

ALL = ("valve", "down", "main", "idle", "shot", "jet", "piston", "pump")


def whole(rig: Rig, scale: float = 3.5) -> tuple[Scene, power.PowerPlaces, pump.PumpPlaces]:
    """Return the whole carburettor at idle, and where power circuit and pump stand in it."""
    sheet = Scene.of(rig, ALL, bowl=floats.length(rig), scale=scale)
    at = sheet.at
    sheet = sheet.within(top=at.top - 2, foot=at.flange + 15, right=at.horn + 8)
    canvas = sheet.canvas
    air.castings(canvas, at)
    air.barrel(canvas, at)
    air.bowl(canvas, at)
    main.main_jet(canvas, at, rig)
    main.main_well(canvas, at)
    floats.inlet(canvas, at, rig)
    floats.float_and_needle(canvas, at, rig)
    for draw in (idle.idle_tube, idle.idle_channel, idle.idle_port, idle.mixture_screw):
        draw(canvas, at, rig)
    if rig.low_speed.valve_bore:
        idle.bleed_valve(canvas, at, rig)
    if rig.high_speed.air_bleed_bore:
        main.bleed_tube(canvas, at, rig)
    air.booster(canvas, at, rig)
    air.choke_plate(canvas, at, rig, 1.45)
    air.throttle_plate(canvas, at, rig, rig.air_path.throttle_closed_angle)
    main.nozzle(canvas, at, rig)
    return sheet, power.power(canvas, at, rig), pump.pump(canvas, at, rig)

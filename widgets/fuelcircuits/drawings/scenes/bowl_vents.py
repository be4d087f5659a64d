"""The bowl's vents, numbered from the cleaner to the bowl and out of it."""

from fuelcircuits.drawings.section import barrel as air
from fuelcircuits.drawings.section import high_speed as main
from fuelcircuits.drawings.section import vents
from fuelcircuits.drawings.section.scene import Scene
from fuelcircuits.physics.network.rig import Rig

__all__ = ["scene"]


def scene(rig: Rig) -> Scene:
    """Return the numbered section of a rig."""
    two_way = rig.vents.switched_share > 0
    sheet = Scene.of(rig, ("main", "jet"), bowl=40.0, scale=3.9)
    at = sheet.at
    sheet = sheet.within(
        left=at.far - (40 if two_way else 12),
        top=at.top - 20,
        foot=at.flange + 5,
        right=at.horn + 18,
    )
    canvas = sheet.canvas
    air.castings(canvas, at)
    air.barrel(canvas, at)
    air.bowl(canvas, at)
    main.main_jet(canvas, at, rig)
    main.main_well(canvas, at)
    air.cleaner(canvas, at)
    air.booster(canvas, at, rig)
    main.nozzle(canvas, at, rig)
    air.choke_plate(canvas, at, rig, 1.5)
    air.throttle_plate(canvas, at, rig, rig.air_path.throttle_closed_angle)
    (_canister_names if two_way else _flap_names)(sheet)
    return sheet


def _flap_names(sheet: Scene) -> None:
    """Draw inside vent and flap, and name what belongs to them."""
    canvas, at, rig = sheet.canvas, sheet.at, sheet.rig
    x, y = vents.inside_vent(canvas, at, rig)
    flap, lift = vents.flap(canvas, at, rig)
    sheet.name("air-cleaner", (-at.horn - 9, at.top - 9))
    sheet.name("air-horn", (at.horn - 4, at.choke + 8), "right")
    sheet.name("inside-vent", (x + 4, y))
    sheet.name("vapour-space", (flap + 16, at.level - 6))
    sheet.name("bowl", (flap + 10, at.floor - 8))
    sheet.name("nozzle", (-at.bore + 3, at.lip + 4), "right")
    sheet.name("outside-vent", (flap - 4, lift - 0.8))
    sheet.name("cover-gasket", (at.far - 3, 0))
    sheet.name("throttle-plate", (8, at.shaft + 1.5), "right")


def _canister_names(sheet: Scene) -> None:
    """Draw two-way valve and canister, and name what belongs to them."""
    canvas, at, rig = sheet.canvas, sheet.at, sheet.rig
    x, y = vents.two_way(canvas, at, rig)
    middle = vents.canister(canvas, at, rig)
    sheet.name("vapour-space", (x + 18, at.level - 6))
    sheet.name("vent-valve", (x - 5.3, y + 2))
    sheet.name("vent-solenoid", (x + 17, y + 3))
    sheet.name("inside-vent", (-at.horn - 4, y), "right")
    sheet.name("canister", middle)

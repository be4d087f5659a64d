"""The accelerator pump in a section: plunger or diaphragm, spring, checks, jet and nozzle."""

from fuelcircuits.drawings.canvas import Canvas, Point, box
from fuelcircuits.drawings.section.layout import COVER, Layout
from fuelcircuits.physics.network.rig import Rig

__all__ = ["PumpPlaces", "pump"]

MM = 1e3
PLUNGER, GALLERY, WALL = 5.0, 3.0, 3.0
BEND = -9.6
"""Height of the passage that leads the shot over to the bore."""


class PumpPlaces:
    """Places of the pump's parts, the throttle shut [mm]."""

    def __init__(self, at: Layout, rig: Rig) -> None:
        self.x, self.shot = at.x["pump"], at.x["shot"]
        self.half = min(rig.pump.bore * MM, 19.0) / 2
        self.plate = min(rig.pump.plate_bore * MM / 2, self.half)
        self.top = at.level - 3.0
        self.foot = self.top + PLUNGER + rig.pump.stroke * MM + 3.0
        self.inlet: Point = (self.x - self.half + 3.5, self.foot)
        self.outlet: Point = (self.shot, at.level + 3.0)
        self.tip: Point = (at.wall + 3.0, BEND + 2.5)
        self.collar = 0.5


def pump(canvas: Canvas, at: Layout, rig: Rig) -> PumpPlaces:
    """Draw the pump, its throttle shut and its well full; return where its parts stand."""
    here = PumpPlaces(at, rig)
    sides = box(here.x - here.half - WALL, 1.5, here.x + here.half + WALL, at.floor + 0.6)
    canvas.in_front()
    canvas.shape(sides, "paper", "ground")
    canvas.shape(sides, "body", "ground")
    for x in (here.x - here.half - WALL, here.x + here.half + WALL):
        canvas.line([(x, 1.5), (x, at.floor)], "line", "ground")
    canvas.line([(x, 1.5) for x in (here.x - here.half - WALL, here.x + here.half + WALL)])
    _ways(canvas, at, here)
    _checks(canvas, here)
    _plunger(canvas, rig, here)
    _outlet(canvas, at, rig, here)
    return here


def _ways(canvas: Canvas, at: Layout, here: PumpPlaces) -> None:
    """Draw the pump's well and the passages to and from it."""
    low = here.foot + 7.0
    canvas.hollow(box(here.x - here.half, -0.4, here.x + here.half, here.foot))
    canvas.pool(box(here.x - here.half, at.level, here.x + here.half, here.foot))
    canvas.passage([(here.x, -COVER - 2), (here.x, 0.5)], 3.0)
    x = here.inlet[0]
    canvas.passage([(x - 9, low), (x, low), (x, here.foot - 0.4)], GALLERY, "petrol")
    out = here.x + here.half - 2.4
    way = [(out, here.foot - 0.4), (out, low), (here.shot, low), (here.shot, BEND), (at.wall, BEND)]
    canvas.passage(way, GALLERY, "petrol")


def _checks(canvas: Canvas, here: PumpPlaces) -> None:
    """Draw the two balls on their seats: fuel passes from below."""
    for x, y in (here.inlet, here.outlet):
        canvas.disc((x, y), 2.1, "metal")
        for side in (-1, 1):
            seat = [
                (x + side * 0.9, y + 1.9),
                (x + side * 1.5, y + 1.2),
                (x + side * 1.5, y + 3.2),
                (x + side * 0.9, y + 3.2),
            ]
            canvas.shape(seat, "solid")


def _plunger(canvas: Canvas, rig: Rig, here: PumpPlaces) -> None:
    """Draw plunger or diaphragm, rod, and the duration spring between collar and plunger."""
    x, top, plate = here.x, here.top, here.plate - 0.2
    canvas.shape(box(x - 0.9, -COVER - 12, x + 0.9, top), "metal")
    canvas.shape(box(x - 4, here.collar, x + 4, here.collar + 1.6), "metal")
    if rig.pump.plate_bore > 0.98 * rig.pump.bore:
        canvas.shape(box(x - plate, top, x + plate, top + 2), "metal")
        cup = [
            (x - plate, top + 2),
            (x + plate, top + 2),
            (x + plate, top + PLUNGER),
            (x + plate - 1.2, top + PLUNGER),
            (x + plate - 1.6, top + 3),
            (x - plate + 1.6, top + 3),
            (x - plate + 1.2, top + PLUNGER),
            (x - plate, top + PLUNGER),
        ]
        canvas.shape(cup, "solid")
    else:
        canvas.line(
            [
                (x - here.half, top - 1),
                (x - plate, top + 1),
                (x + plate, top + 1),
                (x + here.half, top - 1),
            ]
        )
        canvas.shape(box(x - plate, top, x + plate, top + 2.4), "metal")
    start, end = here.collar + 1.6, top
    canvas.line(
        [(x + (3.8 if step % 2 else -3.8), start + (end - start) * step / 8) for step in range(9)]
    )
    canvas.shape(box(x - 12, -COVER - 14, x + 5, -COVER - 12), "metal")


def _outlet(canvas: Canvas, at: Layout, rig: Rig, here: PumpPlaces) -> None:
    """Draw jet and nozzle, and the shot that leaves it between booster and venturi."""
    half = rig.pump.jet_bore * MM / 2
    stub = [(at.wall - 4.0, BEND), (at.wall - 0.5, BEND), here.tip]
    canvas.passage(stub, GALLERY + 1.2)
    canvas.in_front()
    canvas.passage(stub, GALLERY - 0.6, "petrol")
    place = at.wall - 4.5
    for side in (-1, 1):
        bush = box(place - 2, BEND + side * half, place + 2, BEND + side * 1.9)
        canvas.shape(bush, "paper")
        canvas.shape(bush, "jet")
    x, y = here.tip
    gap = -(at.venturi + rig.air_path.booster_outside * MM / 2) / 2
    canvas.arrow(
        [(x, y + 0.4), ((x + gap) / 2 + 0.6, y + 4), (gap, at.lip + 2), (gap, at.shaft - 8)], "fuel"
    )
    low = here.foot + 7.0
    canvas.arrow(
        [(here.inlet[0] - 8, low), (here.inlet[0], low), (here.inlet[0], here.foot + 3)], "fuel"
    )
    canvas.arrow([(here.shot, low - 1), (here.shot, BEND + 4)], "fuel")

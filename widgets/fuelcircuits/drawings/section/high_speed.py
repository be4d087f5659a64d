"""The high-speed circuit in a section: main jet, main well, nozzle, and the air bleed if any."""

from fuelcircuits.drawings.canvas import Canvas, box
from fuelcircuits.drawings.section.layout import Layout
from fuelcircuits.physics.network.rig import Rig

__all__ = ["bleed_tube", "main_jet", "main_well", "nozzle", "nozzle_stub"]

MM = 1e3
HALF, GALLERY = 3.6, 3.2
"""Half the main well's width, and the width of the passage to it."""
BLEED = -3.0
"""Height at which the main air bleed leaves the air horn."""


def main_jet(canvas: Canvas, at: Layout, rig: Rig, to: str = "main") -> None:
    """Draw the main jet in the bowl's floor, and the passage from it to the wells."""
    x, half = at.x["jet"], rig.high_speed.jet_bore * MM / 2
    low = at.well - GALLERY / 2
    end = at.x.get(to, at.x.get("idle", at.column + 4))
    canvas.passage([(x, at.floor - 1), (x, low), (end, low)], GALLERY, "petrol")
    top = at.floor - rig.high_speed.jet_length * MM * 0.6
    for side in (-1, 1):
        near, far = x + side * half, x + side * 3.0
        canvas.shape(box(near, top, far, top + rig.high_speed.jet_length * MM), "paper")
        canvas.shape(box(near, top, far, top + rig.high_speed.jet_length * MM), "jet")


def main_well(canvas: Canvas, at: Layout) -> None:
    """Draw the main well, in which fuel stands as high as in the bowl."""
    x = at.x["main"]
    sides = box(x - HALF, at.lip - 4, x + HALF, at.well)
    canvas.hollow(sides)
    canvas.pool(box(x - HALF, at.level, x + HALF, at.well))
    canvas.line([(x - HALF, at.level), (x + HALF, at.level)], "surface", "pools")


def nozzle_stub(canvas: Canvas, at: Layout, rig: Rig) -> None:
    """Draw the fuel at the nozzle's inner end where no well is shown."""
    x = at.x["main"] + HALF
    canvas.hollow(box(x - 3, at.lip + 2, x, at.lip + 12), "petrol")


def nozzle(canvas: Canvas, at: Layout, rig: Rig) -> None:
    """Draw the nozzle from the well up to its lip in the booster's throat."""
    bore, x = rig.high_speed.nozzle_bore * MM, at.x["main"] + HALF
    mouth = -rig.air_path.booster_throat * MM / 2 + 0.6
    start, end = (x - 0.5, at.lip + bore / 2 + 5.5), (mouth, at.lip + bore / 2)
    canvas.passage([start, end], bore + 1.8, "air")
    canvas.in_front()
    canvas.passage([start, end], bore, "petrol")


def bleed_tube(canvas: Canvas, at: Layout, rig: Rig) -> None:
    """Draw the perforated tube in the well, and the air bleed that feeds it."""
    main, x = rig.high_speed, at.x["main"]
    foot = at.level + main.last_hole * MM + 3
    canvas.passage([(at.wall + 2, BLEED), (x, BLEED), (x, at.lip - 4)], 2.2)
    canvas.shape(box(x - 1.9, at.lip - 4.2, x + 1.9, foot), "metal")
    canvas.shape(box(x - 1.1, at.lip - 4.4, x + 1.1, foot - 0.8), "paper")
    inside = at.level + main.first_hole * MM + 1.0
    canvas.shape(box(x - 1.1, inside, x + 1.1, foot - 0.8), "petrol")
    steps = max(int(main.hole_count) - 1, 1)
    for step in range(int(main.hole_count)):
        y = at.level + (main.first_hole + (main.last_hole - main.first_hole) * step / steps) * MM
        for side in (-1.5, 1.5):
            canvas.disc((x + side, y), main.hole_bore * MM / 2, "solid")
    half, place = main.air_bleed_bore * MM / 2, (at.wall + x) / 2 - 1
    for side in (-1, 1):
        bush = box(place - 1.7, BLEED + side * half, place + 1.7, BLEED + side * 2)
        canvas.shape(bush, "paper")
        canvas.shape(bush, "jet")
    canvas.arrow([(at.wall + 5, BLEED), (x, BLEED), (x, at.level + 6)], "air")

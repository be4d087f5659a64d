"""The power circuit in a section: vacuum piston, spring, hanger and the rod in the main jet."""

from fuelcircuits.drawings.canvas import Canvas, Point, box
from fuelcircuits.drawings.section.layout import Layout
from fuelcircuits.physics.network.rig import Rig

__all__ = ["PowerPlaces", "power"]

MM = 1e3
PISTON, ROOF = 7.0, 3.0
"""Height of the piston, and of the hanger's bar below the cover."""


class PowerPlaces:
    """Places of piston and rod with the rod down [mm]."""

    def __init__(self, at: Layout, rig: Rig) -> None:
        self.x = at.x["piston"]
        self.rod = at.x["jet"]
        self.half = rig.power.piston_bore * MM / 2
        self.travel = rig.power.travel * MM
        self.bar = ROOF + self.travel
        self.head: Point = (self.x, self.bar + 9.0)
        self.foot = self.head[1] + PISTON + self.travel + 6.0


def power(canvas: Canvas, at: Layout, rig: Rig, up: float = 0.0) -> PowerPlaces:
    """Draw piston, spring and rod, the rod a share `up` of its travel; return where they stand."""
    here, lift = PowerPlaces(at, rig), up * rig.power.travel * MM
    wall = here.half + 3.2
    canvas.in_front()
    sides = box(here.x - wall, here.bar + 4, here.x + wall, at.floor + 0.6)
    canvas.shape(sides, "paper", "ground")
    canvas.shape(sides, "body", "ground")
    for x in (here.x - wall, here.x + wall):
        canvas.line([(x, here.bar + 4), (x, at.floor)], "line", "ground")
    canvas.hollow(box(here.x - here.half, here.bar + 4, here.x + here.half, here.foot))
    canvas.passage([(here.x, here.foot - 1), (here.x, at.well + 12)], 2.4)
    _piston(canvas, here, lift)
    _rod(canvas, at, rig, here, lift)
    canvas.arrow([(here.x, here.foot + 3), (here.x, at.well + 2)], "air")
    return here


def _piston(canvas: Canvas, here: PowerPlaces, lift: float) -> None:
    """Draw piston, spring and the hanger's stem."""
    top = here.head[1] - lift
    canvas.shape(
        box(here.x - here.half + 0.3, top, here.x + here.half - 0.3, top + PISTON), "metal"
    )
    canvas.shape(box(here.x - 0.8, here.bar - lift, here.x + 0.8, top), "metal")
    start, end = top + PISTON, here.foot
    coils = [
        (here.x + (3.2 if step % 2 else -3.2), start + (end - start) * step / 8)
        for step in range(9)
    ]
    canvas.line(coils)


def _rod(canvas: Canvas, at: Layout, rig: Rig, here: PowerPlaces, lift: float) -> None:
    """Draw the rod with its steps: the lean one stands in the jet while the rod is down."""
    steps = rig.power
    bar = here.bar - lift
    canvas.shape(box(here.x - 1.6, bar - 1.2, here.rod + 1.6, bar + 1.2), "metal")
    # the jet's edge stands at the top of the lean step with the rod up, at its foot with it down
    jet = at.floor - lift
    lean, middle, rich = (
        each * MM / 2 for each in (steps.lean_step, steps.middle_step, steps.rich_step)
    )
    first, second = (share * here.travel for share in (steps.first_edge, steps.second_edge))
    foot = jet + here.travel + 1.5
    side = [
        (lean, bar),
        (lean, jet + first),
        (middle, jet + first + 0.4),
        (middle, jet + second),
        (rich, jet + second + 0.4),
        (rich, foot),
    ]
    points = [(here.rod + x, y) for x, y in side]
    other = [(here.rod - x, y) for x, y in reversed(side)]
    canvas.shape([*points, *other], "metal")

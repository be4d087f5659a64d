"""The bowl's vents in a section: inside vent, and flap or two-way solenoid with canister."""

from fuelcircuits.drawings.canvas import Canvas, box
from fuelcircuits.drawings.section.layout import COVER, Layout
from fuelcircuits.physics.network.rig import Rig

__all__ = ["canister", "flap", "inside_vent", "two_way"]

MM = 1e3
FLAP, INSIDE, VALVE = 16.0, 7.0, 24.0
"""Places of flap, of inside vent and of the two-way valve, from the bowl's walls."""


def inside_vent(canvas: Canvas, at: Layout, rig: Rig) -> tuple[float, float]:
    """Draw the plain inside vent from bowl to air horn; return a place in it."""
    width, x, height = rig.vents.inside_bore * MM, at.column - INSIDE, -13.0
    wall = width + 3.0
    path = [(x, 0.0), (x, height), (-at.horn + 1.0, height)]
    canvas.passage([(x, -COVER - 0.2), (x, height), (-at.horn - 3.5, height)], wall)
    canvas.in_front()
    canvas.passage(path, width)
    canvas.arrow([(-at.horn + 6, height), (x, height), (x, 3.0)], "air")
    return x, height


def flap(canvas: Canvas, at: Layout, rig: Rig, across: float = FLAP) -> tuple[float, float]:
    """Draw the outside vent: a hole in the cover and a flap over it, lifted as at idle."""
    x, half = at.far + across, rig.vents.outside_bore * MM / 2
    canvas.hollow(box(x - half, -COVER - 3, x + half, 0.0))
    lift = -COVER - rig.vents.outside_setting * MM
    canvas.shape(box(x - half - 2.5, lift - 1.6, x + half + 2.5, lift), "metal")
    canvas.shape(box(x - 0.8, lift - 9, x + 0.8, lift - 1.6), "metal")
    canvas.shape(box(x - 10, lift - 11, x + 3, lift - 9), "metal")
    canvas.arrow([(x + 1.5, -2), (x + 1.5, lift + 0.8), (x + half + 8, lift + 0.4)], "fuel")
    return x, lift


def two_way(canvas: Canvas, at: Layout, rig: Rig) -> tuple[float, float]:
    """Draw the solenoid's valve with the ignition on: open to the air horn; return its place."""
    x, inside = at.far + VALVE, rig.vents.inside_bore * MM
    line, roof = rig.vents.canister_bore * MM, -COVER - 14.0
    middle = roof + 7.0
    canvas.casting(box(x - 11, roof - 3, x + 11, -COVER + 1), "cover")
    canvas.casting(
        box(x + 9, middle - inside / 2 - 2, -at.horn - 1, middle + inside / 2 + 2), "cover"
    )
    canvas.hollow(box(x - 5, roof, x + 5, -0.4))
    canvas.passage([(x + 4, middle), (-at.horn + 1.5, middle)], inside)
    canvas.passage([(x - 4.5, middle), (x - 16, middle)], line)
    canvas.in_front()
    canvas.shape(box(x - 6.2, middle - line / 2 - 1.4, x - 4.4, middle + line / 2 + 1.4), "metal")
    canvas.shape(box(x - 4.4, middle - 0.7, x + 14, middle + 0.7), "metal")
    coil = box(x + 12, middle - 4.5, x + 22, middle + 4.5)
    canvas.shape(coil, "part")
    canvas.line([coil[0], coil[2]], "thin")
    canvas.line([coil[1], coil[3]], "thin")
    return x, middle


def canister(canvas: Canvas, at: Layout, rig: Rig) -> tuple[float, float]:
    """Draw the charcoal canister left of the bowl, with its hose; return its middle."""
    x, top = at.far - 24.0, 8.0
    middle, line = -COVER - 7.0, rig.vents.canister_bore * MM
    canvas.passage([(at.far + VALVE - 10, middle), (x, middle), (x, top + 2)], line, "vapour")
    canvas.hollow(box(x - 11, top, x + 11, top + 30), "vapour")
    canvas.arrow([(at.far + VALVE - 14, middle), (x, middle), (x, top + 6)], "fuel")
    return x, top + 16.0

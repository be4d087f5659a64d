"""The barrel in a section: castings, air horn, venturi, booster, throttle and choke plate."""

from math import cos, pi

from fuelcircuits.drawings.canvas import Canvas, Point, box, turned
from fuelcircuits.drawings.section.layout import COVER, NECK, WALL, Layout
from fuelcircuits.physics.network.rig import Rig

__all__ = [
    "barrel",
    "booster",
    "bowl",
    "bowl_castings",
    "castings",
    "choke_plate",
    "cleaner",
    "plate",
    "throttle_plate",
]

MM = 1e3
SIDE = 8.0
"""Thickness of the bore's right wall."""
OUT = 40.0
"""How far hollows reach beyond what is cut off."""


def castings(canvas: Canvas, at: Layout, *, neck: float = NECK, bowl: bool = True) -> None:
    """Draw cover, body and throttle body; without a bowl, `neck` mm of them left of the bore."""
    left, right = (at.far - WALL if bowl else at.wall - neck), at.bore + SIDE
    canvas.casting(box(left, -COVER, right, -0.5), "cover")
    canvas.casting(box(-at.horn - 4, at.top, at.horn + 4, -COVER + 1), "cover")
    canvas.casting(box(left, 0.5, right, at.joint))
    if bowl:
        canvas.casting(box(left, 0.5, at.wall - NECK, at.well + WALL - 1))
    canvas.casting(box(at.wall - NECK, at.joint, right, at.flange), "cover")
    canvas.casting(box(at.wall - 4, at.flange + 1, at.bore + 4, at.flange + OUT))
    canvas.shape(box(left, -0.5, right, 0.5), "solid", "ground")
    canvas.shape(box(at.wall - NECK, at.flange, right, at.flange + 1), "solid", "ground")


def bowl_castings(canvas: Canvas, at: Layout) -> None:
    """Draw cover and body about the bowl alone."""
    left, right = at.far - WALL, at.bore
    canvas.casting(box(left, -COVER, right, -0.5), "cover")
    canvas.casting(box(left, 0.5, right, at.well + WALL - 1))
    canvas.shape(box(left, -0.5, right, 0.5), "solid", "ground")


def cleaner(canvas: Canvas, at: Layout) -> None:
    """Draw the air cleaner on the air horn: lid, element and base."""
    half, top = at.horn + 17, at.top
    lid = [(-half, top - 15), (-half + 6, top - 18), (half - 6, top - 18), (half, top - 15)]
    canvas.shape(lid, "metal")
    canvas.shape(box(-half, top - 1.5, -at.horn, top), "metal")
    canvas.shape(box(at.horn, top - 1.5, half, top), "metal")
    for left in (-half + 2, half - 11):
        folds = [(left + (9 if step % 2 else 0), top - 15 + 13.5 * step / 12) for step in range(13)]
        canvas.line(folds)
    for side in (-1, 1):
        way = [(half + 9, top - 9), (half - 16, top - 8.5), (at.horn - 6, top + 4)]
        canvas.arrow([(side * x, y) for x, y in way], "air", "words")


def barrel(canvas: Canvas, at: Layout) -> None:
    """Draw the way of the air: horn, venturi, bore, and the manifold's mouth."""
    right = _profile(at)
    canvas.channel([(-x, y) for x, y in right], right)


def _profile(at: Layout) -> list[Point]:
    """Return the right side of the air's way, from above."""
    inlet = _blend((at.horn, -COVER - 2.0), (at.bore, 1.0))
    return [
        (at.horn, at.top - 0.6),
        *inlet,
        *_blend((at.bore, 1.0), (at.venturi, at.throat)),
        *_blend((at.venturi, at.throat), (at.bore, at.shaft - 0.52 * at.bore)),
        (at.bore, at.flange + OUT),
    ]


def _blend(start: Point, end: Point, steps: int = 14) -> list[Point]:
    """Return points of a smooth way between two places, upright at both."""
    shares = ((1 - cos(pi * step / steps)) / 2 for step in range(steps + 1))
    return [
        (start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * step / steps)
        for step, share in enumerate(shares)
    ]


def booster(canvas: Canvas, at: Layout, rig: Rig) -> None:
    """Draw the booster: its throat at the nozzle's lip, its exit in the main venturi's throat."""
    path = rig.air_path
    outside, throat = path.booster_outside * MM / 2, path.booster_throat * MM / 2
    exit_, top = path.booster_exit * MM / 2, at.lip - 6.0
    web = box(outside - 0.5, at.lip - 1.8, at.bore - 1, at.lip + 1.8)
    canvas.shape(web, "metal", "insides")
    for side in (-1, 1):
        wall = [
            (outside, top + 1),
            (outside - 0.4, top),
            (throat + 0.45 * (outside - throat), top),
            (throat, at.lip - 1.5),
            (throat, at.lip + 1.5),
            (exit_, at.throat),
            (outside, at.throat),
        ]
        points = [(side * x, y) for x, y in wall]
        canvas.shape(points, "paper")
        canvas.shape(points, "jet")


def plate(
    canvas: Canvas, middle: Point, halves: tuple[float, float], thick: float, angle: float
) -> None:
    """Draw a plate seen on its edge, turned from straight across; its left side goes up."""
    left, right = halves
    x, y = middle
    canvas.shape(
        turned(box(x - left, y - thick / 2, x + right, y + thick / 2), middle, angle), "metal"
    )


def throttle_plate(canvas: Canvas, at: Layout, rig: Rig, angle: float) -> None:
    """Draw the throttle plate open by `angle` [rad], counted from straight across."""
    half = at.bore / cos(rig.air_path.throttle_closed_angle)
    plate(canvas, (0, at.shaft), (half, half), rig.low_speed.plate_edge * MM, angle)
    _shaft(canvas, (0, at.shaft), rig.air_path.throttle_shaft * MM / 2)


def choke_plate(canvas: Canvas, at: Layout, rig: Rig, angle: float) -> None:
    """Draw the choke plate at `angle` [rad]; air presses harder on its larger, right wing."""
    half, off = at.horn / cos(rig.air_path.choke_closed_angle), rig.choke.plate_offset * MM
    plate(canvas, (-off, at.choke), (half - off, half + off), 1.6, angle)
    _shaft(canvas, (-off, at.choke), rig.air_path.choke_shaft * MM / 2)


def _shaft(canvas: Canvas, middle: Point, radius: float) -> None:
    canvas.disc(middle, radius)
    canvas.disc(middle, 0.5, "solid")


def bowl(canvas: Canvas, at: Layout, level: float | None = None) -> None:
    """Draw the bowl with fuel up to the card's level, or to another."""
    height = at.level if level is None else level
    canvas.hollow(box(at.far, -0.5, at.column, at.floor))
    canvas.pool(box(at.far, height, at.column, at.floor))
    canvas.line([(at.far, height), (at.column, height)], "surface", "pools")

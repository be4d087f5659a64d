"""What moves the choke plate in a section: coil, pull-off, links and the fast-idle cam."""

from math import cos, degrees, pi, sin

from fuelcircuits.drawings.canvas import Canvas, Point, arc, box, ring, turned
from fuelcircuits.drawings.section.layout import Layout
from fuelcircuits.physics.network.rig import Rig

__all__ = ["ChokePlaces", "cam", "cam_outline", "cam_radius", "coil", "levers", "pull_off", "screw"]

MM = 1e3
AHEAD = 1.35
"""How far the choke's lever stands ahead of its plate [rad]: pulled right, it opens the plate."""
COIL, CAN, ARM, BASE, STEP = 16.0, 9.0, 15.0, 7.0, 0.9
"""Radius of the coil's housing, half the diaphragm's can, length of the choke's lever, the cam's
radius past its last step, and what a degree of throttle adds to it [mm]."""


class ChokePlaces:
    """Places of what stands beside the air horn [mm]."""

    def __init__(self, at: Layout, rig: Rig) -> None:
        self.shaft: Point = (-rig.choke.plate_offset * MM, at.choke)
        self.coil: Point = (-at.horn - 34.0, at.choke)
        self.can: Point = (at.horn + 30.0, at.choke - 3.0)
        self.cam: Point = (-at.bore - 33.0, at.shaft + 20.0)
        self.port = at.shaft + 6.5


def coil(canvas: Canvas, at: Layout, rig: Rig) -> None:
    """Draw the coil of two metals in its housing, on the choke's shaft."""
    here = ChokePlaces(at, rig)
    canvas.line([here.coil, here.shaft], "axis")
    canvas.disc(here.coil, COIL)
    canvas.disc(here.coil, COIL - 1.2, "thin")
    x, y = here.coil
    spiral = [
        (
            x + (2 + 10.5 * step / 160) * cos(9 * pi * step / 160),
            y + (2 + 10.5 * step / 160) * sin(9 * pi * step / 160),
        )
        for step in range(161)
    ]
    canvas.line(spiral)
    canvas.disc(spiral[-1], 0.8, "solid")
    canvas.disc(here.coil, 1.8)
    for turn in (-0.25, 0.0, 0.25):
        start, end = (
            arc(here.coil, far, -pi / 2 + turn, -pi / 2 + turn)[0] for far in (COIL, COIL + 2)
        )
        canvas.line([start, end], "thin")


def levers(canvas: Canvas, at: Layout, rig: Rig, angle: float) -> Point:
    """Draw the lever on the end of the choke's shaft; return the place of its pin."""
    here = ChokePlaces(at, rig)
    x, y = here.shaft
    turn = angle - AHEAD
    pin = (x + ARM * cos(turn), y + ARM * sin(turn))
    bar = [(x, y - 1.6), (x + ARM, y - 1.2), (x + ARM, y + 1.2), (x, y + 1.6)]
    canvas.shape(turned(bar, here.shaft, turn), "metal")
    canvas.disc(here.shaft, 2.4)
    canvas.disc(here.shaft, 0.5, "solid")
    canvas.disc(pin, 1.3)
    return pin


def pull_off(canvas: Canvas, at: Layout, rig: Rig, pin: Point, drawn: float) -> None:
    """Draw the diaphragm in its can, its link to the choke's lever, and its vacuum line.

    `drawn` is the share of its stroke that the vacuum has drawn it.
    """
    here = ChokePlaces(at, rig)
    x, y = here.can
    middle = x - 3.5 + drawn * rig.choke.pull_off_stroke * MM
    canvas.passage([(x + 8, y), (x + 14, y), (x + 14, here.port), (at.bore - 1, here.port)], 2.2)
    canvas.in_front()
    canvas.shape(box(x - 9, y - CAN, x + 9, y + CAN), "part")
    canvas.line([(x - 2, y - CAN), (middle, y - 5), (middle, y + 5), (x - 2, y + CAN)], "line")
    canvas.line([(x - 2, y - CAN), (x - 2, y - CAN - 1.5)])
    canvas.line([(x - 2, y + CAN), (x - 2, y + CAN + 1.5)])
    coils = [
        (middle + (x + 8.5 - middle) * step / 6, y + (2.4 if step % 2 else -2.4))
        for step in range(7)
    ]
    canvas.line(coils, "thin")
    end = (x - 18.0 + drawn * rig.choke.pull_off_stroke * MM, y)
    canvas.shape(box(end[0], y - 0.8, middle, y + 0.8), "metal")
    canvas.line([pin, end])
    canvas.disc(end, 1.3)
    canvas.disc(pin, 1.3)
    canvas.arrow([(x + 14, y + 4), (x + 14, here.port - 4)], "air")


def cam(canvas: Canvas, at: Layout, rig: Rig, angle: float) -> None:
    """Draw the fast-idle cam with the choke plate at `angle`, and the throttle's lever on it.

    The lever's screw stands on the cam from above: a higher step lifts the lever's end and opens
    the throttle.
    """
    here = ChokePlaces(at, rig)
    x, y = here.cam
    canvas.in_front()
    rod = (here.coil[0] + 3, here.coil[1] + COIL - 2)
    canvas.line([rod, (x - 5, y + 3)], "axis")
    canvas.shape(cam_outline(rig, here.cam, angle, -pi / 2), "metal")
    canvas.shape(ring(here.cam, 1.8), "part")
    touch = y - cam_radius(rig, angle)
    screw(canvas, (x, touch), -1)
    lever = [(x - 3.5, at.shaft - 2.4), (0, at.shaft - 2.8), (0, at.shaft + 2.8)]
    canvas.shape([*lever, (x - 3.5, at.shaft + 2.4)], "metal")
    canvas.disc((0, at.shaft), rig.air_path.throttle_shaft * MM / 2)
    canvas.disc((0, at.shaft), 0.5, "solid")


def screw(canvas: Canvas, tip: Point, way: int) -> None:
    """Draw an upright screw whose tip points down, or up where `way` is 1."""
    x, y = tip
    canvas.shape(box(x - 1.1, y, x + 1.1, y + way * 16), "metal")
    canvas.shape(box(x - 2.6, y + way * 13, x + 2.6, y + way * 16), "metal")


def cam_radius(rig: Rig, angle: float) -> float:
    """Return the radius of the step that the screw stands on with the plate at `angle` [mm]."""
    held = zip(rig.choke.cam_edges, rig.choke.cam_openings, strict=True)
    return BASE + STEP * degrees(next((opening for edge, opening in held if angle < edge), 0.0))


def cam_outline(rig: Rig, middle: Point, angle: float, contact: float) -> list[Point]:
    """Return the cam's outline, turned so that the step in use meets the screw at `contact`."""
    card = rig.choke
    edges = [rig.air_path.choke_closed_angle - 0.15, *card.cam_edges]
    outline: list[Point] = [middle]
    for first, last, opening in zip(edges[:-1], edges[1:], card.cam_openings, strict=True):
        start, stop = contact + first - angle, contact + last - angle
        outline += arc(middle, BASE + STEP * degrees(opening), start, stop, 6)
    end = contact + edges[-1] - angle
    return [*outline, *arc(middle, BASE, end, end + 0.7, 6)]

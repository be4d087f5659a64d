"""Idle stop and fast-idle cam on the throttle's lever, drawn right of the bore.

On the car they share one end of the shaft; here they stand clear of the passages.
"""

from math import pi

from fuelcircuits.drawings.canvas import Canvas, Point, box, ring
from fuelcircuits.drawings.section.choke import cam_outline, cam_radius, screw
from fuelcircuits.drawings.section.layout import Layout
from fuelcircuits.physics.network.rig import Rig

__all__ = ["StopPlaces", "stop"]


class StopPlaces:
    """Places of stop, lever and cam [mm]."""

    def __init__(self, at: Layout, rig: Rig, angle: float) -> None:
        self.idle: Point = (at.bore + 21.0, at.shaft - 2.2)
        self.fast: Point = (at.bore + 36.0, at.shaft - 12.0)
        self.cam: Point = (self.fast[0], self.fast[1] - cam_radius(rig, angle))


def stop(canvas: Canvas, at: Layout, rig: Rig, angle: float) -> StopPlaces:
    """Draw lever, idle-speed screw and cam, with the choke plate at `angle`."""
    here = StopPlaces(at, rig, angle)
    canvas.in_front()
    canvas.casting(box(at.bore + 6, at.shaft - 11, at.bore + 26, at.shaft - 6), "cover")
    end = here.fast[0] + 4
    lever = [(0, at.shaft - 2.8), (end, at.shaft - 2.2), (end, at.shaft + 2.2), (0, at.shaft + 2.8)]
    canvas.shape(lever, "metal")
    screw(canvas, here.idle, -1)
    screw(canvas, here.fast, 1)
    canvas.shape(cam_outline(rig, here.cam, angle, pi / 2), "metal")
    canvas.shape(ring(here.cam, 1.8), "part")
    canvas.disc((0, at.shaft), rig.air_path.throttle_shaft * 500)
    canvas.disc((0, at.shaft), 0.5, "solid")
    return here

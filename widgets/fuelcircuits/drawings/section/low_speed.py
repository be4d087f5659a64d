"""The low-speed circuit in a section: jet, idle tube, air bleeds, economizer, chamber, outlets."""

from math import cos, radians, sin, tan

from fuelcircuits.drawings.canvas import Canvas, Point, box
from fuelcircuits.drawings.section.layout import Layout
from fuelcircuits.physics.network.rig import Rig

__all__ = [
    "Port",
    "bleed_valve",
    "down_passage",
    "idle_channel",
    "idle_port",
    "idle_tube",
    "mixture_screw",
    "port",
]

MM = 1e3
TUBE, CHANNEL, CHAMBER = 2.2, 2.6, 4.4
"""Width of idle tube, channel and idle-port chamber."""
LEAN = radians(50)
"""Slope of the mixture screw, whose head must stand free of the bowl."""
HEIGHT = -6.2
"""Height at which the idle air bleed leaves the air horn."""


class Port:
    """Heights of the idle port: slot and mixture screw."""

    def __init__(self, at: Layout, rig: Rig) -> None:
        idle = rig.low_speed
        self.foot = at.shaft - idle.slot_start * MM
        self.top = self.foot - idle.slot_height * MM
        self.screw = at.shaft + 5.0
        self.roof = self.top - 2.5
        self.x = at.wall - 5.0


def port(at: Layout, rig: Rig) -> Port:
    """Return where slot and screw of a rig stand."""
    return Port(at, rig)


def idle_tube(canvas: Canvas, at: Layout, rig: Rig) -> None:
    """Draw idle well, low-speed jet and the tube that lifts the fuel."""
    x, cross = at.x["idle"], at.level - rig.low_speed.lift * MM
    jet = at.level + rig.low_speed.tube_depth * MM
    canvas.hollow(box(x - 3.2, at.lip - 4, x + 3.2, at.well))
    canvas.pool(box(x - 3.2, at.level, x + 3.2, at.well))
    canvas.line([(x - 3.2, at.level), (x + 3.2, at.level)], "surface", "pools")
    canvas.shape(box(x - 2, at.lip - 4.2, x + 2, jet + 3), "metal")
    canvas.shape(box(x - TUBE / 2, cross - 1, x + TUBE / 2, jet), "petrol")
    canvas.line([(x - TUBE / 2, at.lip - 4.2), (x - TUBE / 2, jet)], "thin")
    canvas.line([(x + TUBE / 2, at.lip - 4.2), (x + TUBE / 2, jet)], "thin")
    hole = rig.low_speed.jet_bore * MM / 2
    for side in (-1, 1):
        canvas.shape(box(x + side * hole, jet, x + side * 2, jet + 3), "jet")
    canvas.shape(box(x - hole, jet, x + hole, jet + 3), "petrol")
    canvas.arrow([(x, jet + 7), (x, cross + 4)], "fuel")


def idle_channel(canvas: Canvas, at: Layout, rig: Rig) -> None:
    """Draw the channel from the tube's top over the air bleeds to the economizer and down."""
    idle, down = rig.low_speed, at.x["down"]
    cross, tube = at.level - idle.lift * MM, at.x["idle"]
    bleed = tube + 4.2
    canvas.passage([(tube, at.lip - 4), (tube, cross), (bleed - 1, cross)], CHANNEL, "petrol")
    entry = Port(at, rig).roof + 2.0
    way = [(bleed - 1, cross), (down, cross), (down, entry), (at.wall - 5.0, entry)]
    canvas.passage(way, CHANNEL, "froth")
    canvas.passage([(at.wall + 2, HEIGHT), (bleed, HEIGHT), (bleed, cross - CHANNEL / 2)], 2.0)
    canvas.passage([(at.wall + 2, cross), (down + CHANNEL / 2, cross)], 2.0)
    _restrictor(canvas, (bleed, (HEIGHT + cross) / 2 + 0.5), idle.air_bleed_bore * MM, upright=True)
    _restrictor(canvas, (at.wall - 1.7, cross), idle.bypass_bore * MM, upright=False)
    _restrictor(canvas, (down, cross + 7), idle.economizer_bore * MM, upright=True, holds="froth")
    canvas.arrow([(at.wall + 5, HEIGHT), (bleed, HEIGHT), (bleed, cross - 1)], "air")
    canvas.arrow([(at.wall + 5, cross), (down + 1, cross)], "air")
    canvas.arrow([(down, cross + 10), (down, entry - 1)], "fuel")
    mouth = (at.wall + 0.4, Port(at, rig).screw)
    canvas.arrow([(mouth[0] - 1, mouth[1] - 0.4), (mouth[0] + 6, mouth[1] + 4)], "fuel")


def down_passage(canvas: Canvas, at: Layout, rig: Rig) -> None:
    """Draw the passage with the economizer alone, from above down to the chamber."""
    down, entry = at.x["down"], Port(at, rig).roof + 2.0
    canvas.passage([(down, -30), (down, entry), (at.wall - 5.0, entry)], CHANNEL, "froth")
    _restrictor(canvas, (down, 8.0), rig.low_speed.economizer_bore * MM, upright=True)
    canvas.arrow([(down, 11.5), (down, entry - 1.5)], "fuel")


def idle_port(canvas: Canvas, at: Layout, rig: Rig) -> None:
    """Draw the chamber behind the bore's wall, and the slot in it."""
    here, half = Port(at, rig), CHAMBER / 2
    canvas.hollow(box(here.x - half, here.roof, here.x + half, here.screw + 4), "froth")
    canvas.hollow(box(here.x + half - 0.5, here.top, at.wall + 0.3, here.foot), "froth")


def mixture_screw(canvas: Canvas, at: Layout, rig: Rig) -> None:
    """Draw the mixture screw as far out as its card has it, and its port."""
    idle, here = rig.low_speed, Port(at, rig)
    mouth = (at.wall + 0.4, here.screw)
    seat = _along(mouth, 3.2)
    half = max(idle.seat_bore * MM / 2, 0.6)
    canvas.casting([_off(_along(mouth, far), wide) for far, wide in BOSS], "cover")
    canvas.passage([mouth, _along(mouth, 12)], 2 * half, "froth")
    canvas.passage([_along(mouth, 4.0), _along(mouth, 9.0)], 3.6, "froth")
    canvas.passage([_along(mouth, 9), _along(mouth, 20)], 3.6)
    out = idle.screw_turns * idle.screw_pitch * MM
    tip = half / tan(idle.needle_angle / 2)
    point = _along(seat, out - tip)
    cone = 1.8 / tan(idle.needle_angle / 2)
    body = [(cone, 1.8), (19.5, 1.8), (19.5, 3.4), (23.0, 3.4)]
    side = [_off(_along(point, far), wide) for far, wide in body]
    other = [_off(_along(point, far), -wide) for far, wide in reversed(body)]
    canvas.shape([point, *side, *other], "metal")
    canvas.line([_along(point, 21.2), _along(point, 23.0)], "thin")
    for step in range(6):
        far = cone + 3.5 + 1.3 * step
        canvas.line([_off(_along(point, far), 1.8), _off(_along(point, far + 0.9), -1.8)], "thin")


BOSS = ((2.0, 5.0), (19.0, 5.0), (19.0, -5.0), (2.0, -5.0))


def _along(start: Point, far: float) -> Point:
    """Return the place `far` mm out from `start` along the screw's axis."""
    return start[0] - far * cos(LEAN), start[1] + far * sin(LEAN)


def _off(place: Point, wide: float) -> Point:
    """Return the place `wide` mm beside the screw's axis."""
    return place[0] + wide * sin(LEAN), place[1] + wide * cos(LEAN)


def bleed_valve(canvas: Canvas, at: Layout, rig: Rig) -> None:
    """Draw the off-idle bleed valve: seat, ball and spring, and its air from below the choke."""
    x, roof = at.x["valve"], Port(at, rig).roof
    seat, half = roof - 8.0, rig.low_speed.valve_bore * MM / 2
    start = 4.0
    canvas.passage([(at.wall + 3, start), (x, start), (x, seat)], 2 * half)
    canvas.hollow(box(x - 3.2, seat, x + 3.2, roof + 1))
    radius = 1.45 * half
    ball = seat + (radius**2 - half**2) ** 0.5
    canvas.disc((x, ball), radius, "metal")
    foot = roof + 0.5
    coils = [
        (x + (1.8 if step % 2 else -1.8), ball + radius + (foot - ball - radius) * step / 6)
        for step in range(7)
    ]
    canvas.line(coils)
    canvas.arrow([(at.wall + 6, start), (x, start), (x, seat - 1)], "air")


def _restrictor(
    canvas: Canvas, middle: Point, bore: float, *, upright: bool, holds: str = "air"
) -> None:
    """Draw a calibrated bush in a passage."""
    x, y = middle
    for side in (-1, 1):
        near, far = side * bore / 2, side * 2.0
        sides = (
            (x + near, y - 1.7, x + far, y + 1.7)
            if upright
            else (x - 1.7, y + near, x + 1.7, y + far)
        )
        canvas.shape(box(*sides), "paper")
        canvas.shape(box(*sides), "jet")

"""A rig drawn apart: the castings lifted from one another, what stands in them lifted out."""

from collections.abc import Callable
from dataclasses import dataclass

from fuelcircuits.drawings.canvas import Canvas, Point, box
from fuelcircuits.drawings.legend import Label, Side, atlas_numbers, legend, margins
from fuelcircuits.drawings.parts import part
from fuelcircuits.drawings.picture import Picture, picture
from fuelcircuits.drawings.section import barrel as air
from fuelcircuits.drawings.section import float_bowl as floats
from fuelcircuits.drawings.section import high_speed as main
from fuelcircuits.drawings.section import low_speed as idle
from fuelcircuits.drawings.section import power, pump
from fuelcircuits.drawings.section.layout import COVER, NECK, WALL, Layout, layout
from fuelcircuits.drawings.section.whole import ALL
from fuelcircuits.physics.network.rig import Rig

__all__ = ["exploded"]

SCALE = 3.4
CHOKE, LID, INNER, JETS, THROTTLE, PLATE = -150.0, -112.0, -58.0, -11.0, 26.0, 68.0
"""How far each group is lifted from its place, or let down [mm]."""
TOP, FOOT = -196.0, 82.0
"""What is drawn above the joint of bowl and cover, and below the flange [mm]."""


@dataclass
class _Sheet:
    """The sheet in the making."""

    rig: Rig
    at: Layout
    shapes: list[str]
    named: list[Label]

    @property
    def corner(self) -> Point:
        """The place of the sheet's corner [mm]."""
        return self.at.far - 8, TOP

    def canvas(self, lift: float = 0.0, aside: float = 0.0) -> Canvas:
        """Return a canvas on which everything is drawn lifted, or let down."""
        return Canvas((self.corner[0] - aside, self.corner[1] - lift), SCALE)

    def name(self, part_id: str, target: Point, lift: float, side: Side) -> None:
        """Name a part that was lifted."""
        spot = self.canvas(lift).at(target)
        self.named.append(Label("", part(part_id).name, spot, side, part_id))


def exploded(rig: Rig, link: str = "") -> Picture:
    """Return a rig drawn apart, numbered as in the atlas; `link` is a part's address, ``{}``."""
    at = layout(rig, ALL, floats.length(rig))
    sheet = _Sheet(rig, at, [], [])
    _axes(sheet)
    _castings(sheet)
    _lifted(sheet)
    _names(sheet)
    wide = (at.bore + 30 - sheet.corner[0]) * SCALE
    high = (at.flange + FOOT - TOP) * SCALE
    named = atlas_numbers(sheet.named)
    before, above, after, below = margins(named, wide)
    names = legend(named, (wide, high), link)
    shapes = f'<g transform="translate({before} {above})">{"".join(sheet.shapes)}{names}</g>'
    listed = ", ".join(f"{one.number} {one.name}" for one in named)
    title = f"The carburettor {rig.name} drawn apart, from the choke plate to the throttle plate"
    size = (before + wide + after, above + high + below)
    return picture(shapes, size, f"{title}. Numbered: {listed}.", linked=bool(link))


def _castings(sheet: _Sheet) -> None:
    """Draw cover, body and throttle body apart, each with the passages that are cut in it."""
    at = sheet.at
    left = at.far - WALL - 2
    neck, right = at.wall - NECK - 1.5, at.bore + 10
    body = [(left, 0.6), (right, 0.6), (right, at.joint), (neck, at.joint), (neck, 90), (left, 90)]
    foot = [(neck + 0.4, at.joint), (right, at.joint), (right, at.flange + 0.1)]
    foot += [
        (at.wall - 5, at.flange + 0.1),
        (at.wall - 5, 90),
        (at.wall - 40, 90),
        (neck, at.well + 8),
    ]
    for name, lift, outline in (
        ("lid", LID, box(left, at.top - 2, right + 20, -0.4)),
        ("middle", 0.0, body),
        ("foot", THROTTLE, foot),
    ):
        canvas = sheet.canvas(lift)
        _cut(canvas, sheet)
        clip = f'<clipPath id="fd-{name}"><path d="{canvas.path(outline)}"/></clipPath>'
        sheet.shapes.append(f'{clip}<g clip-path="url(#fd-{name})">{canvas.drawn()}</g>')
    for lift, points in ((LID / 2 - 24, box(at.far - 5, -0.6, at.bore + 8, 0.6)),):
        canvas = sheet.canvas(lift)
        canvas.shape(points, "solid")
        sheet.shapes.append(canvas.drawn())


def _cut(canvas: Canvas, sheet: _Sheet) -> None:
    """Draw the castings with all their hollows, empty."""
    at, rig = sheet.at, sheet.rig
    air.castings(canvas, at)
    air.barrel(canvas, at)
    canvas.hollow(box(at.far, -0.5, at.column, at.floor))
    for draw in (main.main_jet, idle.idle_tube, idle.idle_channel, idle.idle_port):
        draw(canvas, at, rig)
    main.main_well(canvas, at)
    idle.mixture_screw(canvas, at, rig)
    floats.inlet(canvas, at, rig)
    if rig.low_speed.valve_bore:
        idle.bleed_valve(canvas, at, rig)
    for storey in canvas.storeys:
        for kind in ("pools", "parts", "ways", "words"):
            storey[kind].clear()
        storey["insides"] = [
            each for each in storey["insides"] if "paper" in each or "sheet" in each
        ]


def _lifted(sheet: _Sheet) -> None:
    """Draw what stands in the castings, lifted out of them."""
    at, rig = sheet.at, sheet.rig
    path = rig.air_path
    groups: list[tuple[float, Callable[[Canvas], object]]] = [
        (CHOKE, lambda one: air.choke_plate(one, at, rig, path.choke_closed_angle)),
        (LID + 22, lambda one: floats.inlet(one, at, rig)),
        (INNER, lambda one: floats.float_and_needle(one, at, rig)),
        (INNER, lambda one: power.power(one, at, rig)),
        (INNER, lambda one: pump.pump(one, at, rig)),
        (INNER, lambda one: idle.idle_tube(one, at, rig)),
        (
            INNER,
            lambda one: main.bleed_tube(one, at, rig) if rig.high_speed.air_bleed_bore else None,
        ),
        (INNER, lambda one: air.booster(one, at, rig)),
        (JETS, lambda one: main.main_jet(one, at, rig)),
        (PLATE, lambda one: air.throttle_plate(one, at, rig, path.throttle_closed_angle)),
    ]
    for lift, draw in groups:
        canvas = sheet.canvas(lift)
        draw(canvas)
        sheet.shapes.append(canvas.only("parts"))
    canvas = sheet.canvas(THROTTLE + 14, -12.0)
    idle.mixture_screw(canvas, at, rig)
    sheet.shapes.append(canvas.only("parts"))


def _axes(sheet: _Sheet) -> None:
    """Draw the axes along which the parts were lifted."""
    at, canvas = sheet.at, sheet.canvas()
    needle = floats.places(at, sheet.rig).needle
    for x in (needle, at.x["piston"], at.x["jet"], at.x["pump"], at.x["idle"], at.x["main"]):
        canvas.line([(x, LID), (x, 4.0)], "axis")
    canvas.line([(0.0, TOP + 4), (0.0, at.flange + FOOT - 4)], "axis")
    sheet.shapes.append(canvas.drawn())


def _names(sheet: _Sheet) -> None:
    """Name each part, from above."""
    at, rig = sheet.at, sheet.rig
    floating = floats.places(at, rig)
    rods, pumped = power.PowerPlaces(at, rig), pump.PumpPlaces(at, rig)
    jet = at.level + rig.low_speed.tube_depth * 1e3 + 1.5
    rows: tuple[tuple[str, Point, float, Side], ...] = (
        ("choke-plate", (10.0, at.choke + 2), CHOKE, "right"),
        ("air-horn", (at.horn + 2, at.choke), LID, "right"),
        ("fuel-inlet", (at.far + 2, -COVER / 2), LID, "left"),
        ("needle-seat", (floating.needle + 3, 4.0), LID + 22, "left"),
        ("cover-gasket", (at.far + 4, 0.0), LID / 2 - 24, "left"),
        ("drop-stop", (floating.stop[0], 6.0), INNER, "left"),
        ("needle", (floating.needle, floating.fulcrum[1] - 3), INNER, "left"),
        ("fulcrum", floating.fulcrum, INNER, "left"),
        ("lever", (floating.needle + 10, floating.fulcrum[1]), INNER, "left"),
        ("float", (floating.middle[0], floating.middle[1] + 4), INNER, "left"),
        ("hanger", (rods.x + 6, rods.bar), INNER, "left"),
        ("power-piston", (rods.x - 2, rods.head[1] + 4), INNER, "left"),
        ("power-spring", (rods.x - 3, rods.foot - 3), INNER, "left"),
        ("metering-rod", (rods.rod, at.level + 14), INNER, "left"),
        ("pump-rod", (pumped.x, -16.0), INNER, "right"),
        ("duration-spring", (pumped.x + 2.6, pumped.collar + 5), INNER, "right"),
        ("pump-plunger", (pumped.x + 4, pumped.top + 1), INNER, "right"),
        ("inlet-check", pumped.inlet, INNER, "left"),
        ("discharge-check", pumped.outlet, INNER, "right"),
        ("pump-jet", (at.wall - 4.5, -11.0), INNER, "right"),
        ("booster", (4.8, at.lip - 3), INNER, "right"),
        ("idle-tube", (at.x["idle"] + 1.5, at.level + 8), INNER, "right"),
        ("low-speed-jet", (at.x["idle"] + 1, jet), INNER, "right"),
        ("main-jet", (at.x["jet"] - 2, at.floor), JETS, "left"),
        ("bowl", (floating.middle[0], at.floor - 6), 0.0, "left"),
        ("main-well", (at.x["main"], at.well - 4), 0.0, "right"),
        ("main-venturi", (at.venturi + 1, at.throat), 0.0, "right"),
        ("idle-chamber", (at.wall - 5, at.shaft), THROTTLE, "right"),
        ("mixture-screw", (at.wall - 25, at.shaft + 22), THROTTLE + 14, "left"),
        ("throttle-plate", (9.0, at.shaft + 1.6), PLATE, "right"),
    )
    for name, target, lift, side in rows:
        sheet.name(name, target, lift, side)
    if rig.high_speed.air_bleed_bore:
        sheet.name("bleed-tube", (at.x["main"] + 1.6, at.level + 4), INNER, "right")

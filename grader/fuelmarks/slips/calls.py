"""Slips with circles, angles, exponentials and drill tables."""

import math
from collections.abc import Iterator

from fuelmarks.formula.tree import Call, Name, Node, Number, Power
from fuelmarks.slips.change import COMMON, ONE, RARE, USUAL, Change, View, added, multiplied

__all__ = ["call_changes"]

PI: Node = Name("pi")
FOUR, TWO = Number(4.0), Number(2.0)
TURNS = ("sin", "cos", "tan")


def call_changes(node: Call, view: View) -> Iterator[Change]:
    """Yield the slips that are made with a function."""
    inside = node.arguments[0]
    subject = view.say(inside)
    if node.function == "circle":
        yield from _circle(inside, subject)
    elif node.function == "bore_of":
        yield from _bore_of(inside, subject)
    elif node.function in TURNS:
        yield from _angle(node, inside, subject)
    elif node.function == "exp":
        yield Change("ten-for-e", Call("exp", (multiplied((1, inside), (1, LN_TEN)),)), USUAL)
        yield Change("function-missing", inside, USUAL, "exp")
    elif node.function == "drill":
        for step in (-1.0, 1.0):
            row = added((1, inside), (1, Number(step)))
            yield Change("next-row", Call("drill", (row,)), USUAL)


LN_TEN = Number(math.log(10.0))


def _circle(bore: Node, subject: str) -> Iterator[Change]:
    square = Power(bore, 2.0)
    yield Change("diameter-for-radius", multiplied((1, PI), (1, square)), COMMON, subject)
    yield Change("square-for-circle", square, COMMON, subject)
    yield Change("way-round", multiplied((1, PI), (1, bore)), USUAL, subject)
    halved = multiplied((1, PI), (-1, TWO), (1, square))
    yield Change("half-of-square", halved, RARE, subject)
    yield Change("pi-missing", multiplied((1, square), (-1, FOUR)), USUAL, subject)
    yield Change("width-for-area", bore, RARE, subject)


def _bore_of(area: Node, subject: str) -> Iterator[Change]:
    ratio = multiplied((1, area), (-1, PI))
    yield Change("radius-for-diameter", Power(ratio, 0.5), COMMON, subject)
    yield Change("side-for-bore", Power(area, 0.5), COMMON, subject)
    flat = multiplied((1, FOUR), (1, area), (-1, PI))
    yield Change("root-missing", flat, COMMON, subject)
    yield Change("area-for-bore", area, COMMON, subject)
    quarter = multiplied((1, area), (-1, PI), (-1, FOUR))
    yield Change("radius-and-diameter", Power(quarter, 0.5), RARE, subject)


def _angle(node: Call, angle: Node, subject: str) -> Iterator[Change]:
    for other in TURNS:
        if other != node.function:
            weight = USUAL if "tan" in (other, node.function) else COMMON
            yield Change("other-side", Call(other, (angle,)), weight, subject)
    degrees = multiplied((1, angle), (1, Number(180 / math.pi)))
    yield Change("degrees-as-radians", Call(node.function, (degrees,)), USUAL, subject)
    yield Change("slope-missing", ONE, USUAL, subject)

"""Slips with powers and roots: left out, taken twice, taken the other way, or too short."""

from collections.abc import Iterator

from fuelmarks.formula.tree import Node, Number, Power, Product
from fuelmarks.slips.change import COMMON, RARE, USUAL, Change, View, multiplied, without

__all__ = ["power_changes"]


def power_changes(node: Power, view: View) -> Iterator[Change]:
    """Yield the slips that are made with a power or a root."""
    subject = view.say(node.base)
    if node.exponent == 0.5:
        yield from _with_root(node.base, subject)
        yield from _too_short("root-too-short", node, view, RARE)
    elif node.exponent == 2.0:
        yield from _with_square(node.base, subject)
        yield from _too_short("square-too-short", node, view, USUAL)
    else:
        yield Change("power-missing", node.base, COMMON, subject)
        yield Change("power-turned", Power(node.base, 1 / node.exponent), USUAL, subject)
    if node.exponent == 0.25:
        yield Change("half-the-root", Power(node.base, 0.5), USUAL, subject)


def _with_root(base: Node, subject: str) -> Iterator[Change]:
    yield Change("root-missing", base, COMMON, subject)
    yield Change("root-twice", Power(base, 0.25), RARE, subject)
    yield Change("square-for-root", Power(base, 2.0), USUAL, subject)


def _with_square(base: Node, subject: str) -> Iterator[Change]:
    yield Change("square-missing", base, COMMON, subject)
    yield Change("double-for-square", multiplied((1, Number(2.0)), (1, base)), RARE, subject)
    yield Change("root-for-square", Power(base, 0.5), USUAL, subject)
    yield Change("square-twice", Power(base, 4.0), RARE, subject)


def _too_short(family: str, node: Power, view: View, weight: float) -> Iterator[Change]:
    """Yield one slip for each factor that was left outside of a root or a square."""
    if not isinstance(node.base, Product):
        return
    for place, (way, factor) in enumerate(node.base.factors):
        rest = without(node.base.factors, place)
        inside = Power(multiplied(*rest), node.exponent)
        yield Change(family, multiplied((1, inside), (way, factor)), weight, view.say(factor))

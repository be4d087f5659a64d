"""Slips with factors: left out, on the wrong side of the line, counted twice, upside down."""

from collections.abc import Iterator
from itertools import combinations

from fuelmarks.formula.tree import Name, Node, Number, Power, Product
from fuelmarks.slips.change import COMMON, RARE, USUAL, Change, View, multiplied, without

__all__ = ["product_changes"]


def product_changes(node: Product, view: View) -> Iterator[Change]:
    """Yield the slips that are made with a product or a quotient."""
    for place in range(len(node.factors)):
        yield from _with_factor(node, place, view)
    yield from _with_numbers(node)
    yield from _with_brackets(node)
    if len({way for way, _ in node.factors}) == 2:
        yield from _upside_down(node, view)


def _with_factor(node: Product, place: int, view: View) -> Iterator[Change]:
    way, factor = node.factors[place]
    subject, bare = view.say(factor), view.plain(factor)
    rest = without(node.factors, place)
    simple = bare or isinstance(factor, Name)
    yield Change("factor-missing", multiplied(*rest), COMMON if simple else USUAL, subject)
    turned = (*node.factors[:place], (-way, factor), *node.factors[place + 1 :])
    yield Change("factor-turned", multiplied(*turned), COMMON if bare else USUAL, subject)
    yield Change("factor-twice", multiplied(*node.factors, (way, factor)), RARE, subject)


def _with_numbers(node: Product) -> Iterator[Change]:
    """Yield the slip of leaving out all the numbers of a formula."""
    rest = [part for part in node.factors if not _is_number(part[1])]
    if len(node.factors) - len(rest) > 1:
        yield Change("numbers-missing", multiplied(*rest), USUAL)


def _is_number(node: Node) -> bool:
    return isinstance(node, Number) or node == Name("pi")


def _with_brackets(node: Product) -> Iterator[Change]:
    """Yield what comes out if only one of several factors stays below the line."""
    below = [place for place, (way, _) in enumerate(node.factors) if way < 0]
    for kept in below if len(below) > 1 else ():
        parts = tuple(
            (-1 if place == kept else 1, factor) for place, (_, factor) in enumerate(node.factors)
        )
        yield Change("brackets-missing", multiplied(*parts), USUAL)


def _upside_down(node: Product, view: View) -> Iterator[Change]:
    """Yield ratios turned over or left out: the whole, or two factors of one kind."""
    if view.plain(node):
        turned = tuple((-way, factor) for way, factor in node.factors)
        yield Change("ratio-turned", multiplied(*turned), COMMON)
        yield Change("root-too-many", Power(node, 0.5), RARE)
    for one, two in combinations(range(len(node.factors)), 2):
        (way, first), (other, second) = node.factors[one], node.factors[two]
        if way == other or view.plain(first) or view.kind(first) != view.kind(second):
            continue
        pair = tuple(
            (-each if place in (one, two) else each, factor)
            for place, (each, factor) in enumerate(node.factors)
        )
        names = {"subject": view.say(first), "other": view.say(second)}
        yield Change("pair-turned", multiplied(*pair), COMMON, **names)
        rest = without(without(node.factors, two), one)
        yield Change("pair-missing", multiplied(*rest), COMMON, **names)

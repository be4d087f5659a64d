"""Slips with terms: left out, of the wrong sign, the wrong way round, put together too soon."""

from collections.abc import Iterator

from fuelmarks.formula.tree import Call, Node, Power, Sum
from fuelmarks.slips.change import COMMON, RARE, USUAL, Change, View, added, without

__all__ = ["sum_changes"]


def sum_changes(node: Sum, view: View) -> Iterator[Change]:
    """Yield the slips that are made with a sum or a difference."""
    if len(node.terms) < 2:
        return
    for place in range(len(node.terms)):
        yield from _with_term(node, place, view)
    if len(node.terms) == 2:
        yield from _with_pair(node)
    else:
        turned = [node.terms[0], *((-sign, each) for sign, each in node.terms[1:])]
        yield Change("signs-turned", added(*turned), RARE)
    yield from _put_together(node)


def _with_term(node: Sum, place: int, view: View) -> Iterator[Change]:
    sign, term = node.terms[place]
    subject = view.say(term)
    yield Change("term-missing", added(*without(node.terms, place)), COMMON, subject)
    if len(node.terms) > 2:
        yield Change("term-alone", term, USUAL, subject)
    if place:
        turned = (*node.terms[:place], (-sign, term), *node.terms[place + 1 :])
        yield Change("sign-turned", added(*turned), COMMON, subject)
    yield Change("term-twice", added(*node.terms, (sign, term)), RARE, subject)


def _with_pair(node: Sum) -> Iterator[Change]:
    (_, first), (sign, second) = node.terms
    if sign < 0:
        yield Change("difference-turned", added((1, second), (-1, first)), USUAL)
    match first, second:
        case Call("circle", (one,)), Call("circle", (two,)):
            width = added((1, one), (sign, two))
            yield Change("diameters-first", Call("circle", (width,)), COMMON)


def _put_together(node: Sum) -> Iterator[Change]:
    """Yield sums made before the squares, and squares made before the sum."""
    bases = [(sign, each.base) for sign, each in node.terms if isinstance(each, Power)]
    exponents = {each.exponent for _, each in node.terms if isinstance(each, Power)}
    if len(bases) == len(node.terms) and len(exponents) == 1:
        yield Change("squares-last", Power(added(*bases), exponents.pop()), COMMON)
    if len(node.terms) > 2 and all(sign > 0 for sign, _ in node.terms):
        squares: list[tuple[int, Node]] = [(1, Power(each, 2.0)) for _, each in node.terms]
        yield Change("root-of-squares", Power(added(*squares), 0.5), USUAL)

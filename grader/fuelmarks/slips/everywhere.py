"""The same slip at every place where it can be made, and two givens that changed places."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations

from fuelmarks.formula.tree import Formula, Name, Node, Path, replaced, sites
from fuelmarks.slips.change import USUAL, Change, View

__all__ = ["formulas_of_everywhere"]

REPEATED = (
    *("diameter-for-radius", "square-for-circle", "pi-missing", "given-unit", "other-share"),
    *("other-given", "other-zero", "book-value", "celsius-for-kelvin"),
)
"""Families that somebody who makes the slip once makes throughout."""


def formulas_of_everywhere(
    view: View, found: list[tuple[int, Path, Change]]
) -> Iterator[tuple[Change, Formula]]:
    """Yield formulas in which one slip is made throughout; `found` are all single changes."""
    groups: dict[tuple[str, str, str], list[tuple[int, Path, Change]]] = {}
    for place, path, change in found:
        if change.family in REPEATED:
            circle = change.family in ("diameter-for-radius", "square-for-circle", "pi-missing")
            about = ("", "") if circle else (change.subject, change.other)
            groups.setdefault((change.family, *about), []).append((place, path, change))
    for members in groups.values():
        places = {(place, path) for place, path, _ in members}
        if len(places) > 1 and len(places) == len(members):
            yield members[0][2], _changed(view.method.formula, members)
    yield from _exchanged(view)


def _changed(formula: Formula, members: list[tuple[int, Path, Change]]) -> Formula:
    """Return the formula with all these changes, the deepest made first."""
    steps = list(formula.steps)
    for place, path, change in sorted(members, key=lambda one: -len(one[1])):
        node = replaced(steps[place].node, path, change.node)
        steps[place] = replace(steps[place], node=node)
    return Formula(tuple(steps))


def _exchanged(view: View) -> Iterator[tuple[Change, Formula]]:
    """Yield formulas in which two givens of a kind have changed places."""
    names = [name for name in view.own if name in view.givens]
    for one, two in combinations(names, 2):
        if view.kinds[one] == view.kinds[two]:
            other = {one: Name(two), two: Name(one)}
            steps = tuple(
                replace(step, node=_renamed(step.node, other)) for step in view.method.formula.steps
            )
            words = view.name(one), view.name(two)
            yield Change("exchanged", other[one], USUAL, *words), Formula(steps)


def _renamed(node: Node, other: dict[str, Name]) -> Node:
    """Return a node with names put in the place of others."""
    for path, each in list(sites(node)):
        if isinstance(each, Name) and each.name in other:
            node = replaced(node, path, other[each.name])
    return node

"""Slips with the answer as a whole: stopped too early, turned over, doubled, of the other sign."""

from collections.abc import Iterator

from fuelmarks.formula.tree import Formula, Name, Node, Number, Step
from fuelmarks.slips.change import COMMON, ONE, RARE, USUAL, Change, View, added, multiplied
from fuelmarks.slips.names import AIR, PRESSURE

__all__ = ["formulas_of_wholes"]

PULL = 9.81  # m/s2


def formulas_of_wholes(view: View) -> Iterator[tuple[Change, Formula]]:
    """Yield changes of the whole answer, each with its formula."""
    formula = view.method.formula
    for place, step in enumerate(formula.steps[:-1], 1):
        early = Change("stopped-early", step.node, COMMON, step.words)
        yield early, Formula(formula.steps[:place])
    for change in _of_answer(view):
        yield change, Formula((*formula.steps, Step("_given_up", change.node, "")))
    for name in view.own:
        if name in view.givens and view.kinds[name] == view.kinds[formula.steps[-1].name]:
            given = Change("given-as-answer", Name(name), USUAL, view.name(name))
            yield given, Formula((Step("_given_up", given.node, ""),))


def _of_answer(view: View) -> Iterator[Change]:
    last = view.method.formula.steps[-1]
    answer: Node = Name(last.name)
    for factor in (2.0, 0.5):
        yield Change("two-astray", multiplied((1, answer), (1, Number(factor))), USUAL, last.words)
    yield Change("sign-of-answer", added((-1, answer)), USUAL, last.words)
    if view.plain(answer):
        yield from _of_number(answer, last.words)
    else:
        yield from _of_quantity(answer, last.words, view)


def _of_number(answer: Node, words: str) -> Iterator[Change]:
    yield Change("answer-turned", multiplied((-1, answer)), COMMON, words)
    yield Change("rest-of-share", added((1, ONE), (-1, answer)), USUAL, words)
    for sign in (1, -1):
        yield Change("whole-for-change", added((1, answer), (sign, ONE)), USUAL, words)


def _of_quantity(answer: Node, words: str, view: View) -> Iterator[Change]:
    for factor in (PULL, 1 / PULL):
        yield Change("pull-astray", multiplied((1, answer), (1, Number(factor))), RARE, words)
    for name in view.givens:
        if "density" in name:
            for way in (1, -1):
                turned = multiplied((1, answer), (way, Name(name)), (-way, Name("water_density")))
                yield Change("volume-for-mass", turned, RARE, words, view.name(name))
    if view.kind(answer) == PRESSURE:
        yield from _of_pressure(answer, words, view)


def _of_pressure(answer: Node, words: str, view: View) -> Iterator[Change]:
    own = next((name for name in view.givens if name in AIR), "")
    for air in filter(None, (own, "standard_air_pressure")):
        outside: Node = Name(air)
        yield Change("zero-of-answer", added((1, answer), (1, outside)), USUAL, words)
        yield Change("zero-of-answer", added((1, outside), (-1, answer)), USUAL, words)

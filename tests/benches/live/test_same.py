"""The browser's Python answers as the kernel's does: every bench, settings near and far."""

import json
from collections.abc import Iterator
from random import Random
from typing import Any

import pytest
from fuelcircuits.benches.frame.choice import Choice
from fuelcircuits.benches.frame.control import Control
from fuelcircuits.benches.live.desk import Desk

from tests.benches.opening import STEMS, bench
from tests.core import CARDS, told_by_core

SETTINGS, LEAP = 20, 4
"""How many of each bench, and after how many all controls are set anew instead of one."""
NEAR = 2e-4
"""By how much a number may differ: a march that chooses its steps may choose another."""
RUNS = {"choke", "cold_start", "hot_soak", "pump"}
"""Benches that march, whose rounding grows from step to step."""


def questions(stem: str) -> Iterator[dict[str, Any]]:
    """Yield the questions of a visit to a bench, on both rigs and in both systems in turn.

    Every second one, a leap of all controls among them, asks for the curves too; the others
    for the point alone, as a page does while a slider moves.
    """
    random, made = Random(stem), bench(stem)
    values = made.values()
    for at in range(SETTINGS):
        names = list(made.inputs()) if at % LEAP == 0 else [random.choice(list(made.inputs()))]
        values = values | {name: setting(random, made.inputs()[name]) for name in names}
        facts = {"rig": list(CARDS)[at // LEAP % 2], "system": ("SI", "US")[at // LEAP % 2]}
        curves = at % 2 == 0
        yield {"ask": "answer", "stem": stem, "values": values, "curves": curves, **facts}


def setting(random: Random, each: Any) -> Any:
    """Return a value of a control."""
    if isinstance(each, Control):
        return random.uniform(each.low, each.high)
    return random.choice(list(each.options)) if isinstance(each, Choice) else random.random() < 0.5


ASKED = [question for stem in STEMS for question in questions(stem)]


@pytest.fixture(scope="module")
def theirs(tmp_path_factory: pytest.TempPathFactory) -> list[str]:
    """Return what the browser's Python answers."""
    return told_by_core(ASKED, tmp_path_factory.mktemp("same"))


@pytest.fixture(scope="module")
def ours() -> list[str]:
    """Return what this Python answers."""
    desk = Desk(CARDS)
    return [desk.ask(json.dumps(question)) for question in ASKED]


def apart(one: Any, other: Any, where: str = "") -> Iterator[str]:
    """Yield where two answers differ in kind, in words, or in numbers by more than is near."""
    if isinstance(one, dict) and isinstance(other, dict) and one.keys() == other.keys():
        for name in one:
            yield from apart(one[name], other[name], f"{where}.{name}")
    elif isinstance(one, list) and isinstance(other, list) and len(one) == len(other):
        for at, pair in enumerate(zip(one, other, strict=True)):
            yield from apart(*pair, where=f"{where}.{at}")
    elif isinstance(one, (int, float)) and isinstance(other, (int, float)):
        step = 1 if isinstance(one, int) else 1.001e-3 if where.startswith(".numbers") else 0
        if abs(one - other) > max(NEAR * abs(one), step):
            yield f"{where}: {one} for {other}"
    elif one != other:
        yield f"{where}: {one!r} for {other!r}"


def turns_by_rounding(question: dict[str, Any], answer: str) -> bool:
    """Tell whether this Python itself answers otherwise if controls differ in the last digits.

    A valve that flutters does that: of such a run no two computers show the same.
    """
    for part in (1 - 1e-14, 1 + 1e-14):
        values = {
            name: part * value if type(value) is float else value
            for name, value in question["values"].items()
        }
        other = Desk(CARDS).ask(json.dumps(question | {"values": values}))
        if next(apart(json.loads(answer), json.loads(other)), None):
            return True
    return False


def test_answers_are_the_same_in_words_and_in_numbers(ours: list[str], theirs: list[str]) -> None:
    faults, fluttering = [], 0
    for question, one, other in zip(ASKED, ours, theirs, strict=True):
        found = list(apart(json.loads(one), json.loads(other)))
        if found and turns_by_rounding(question, one):
            fluttering += 1
        elif found:
            faults.append(f"{question['stem']} at {question['values']}: {found[:3]}")
    assert faults == []
    assert fluttering <= 0.03 * len(ASKED)


@pytest.mark.parametrize("stem", STEMS)
def test_nearly_all_are_the_same_to_the_last_digit(
    ours: list[str], theirs: list[str], stem: str
) -> None:
    pairs = [
        one == other
        for question, one, other in zip(ASKED, ours, theirs, strict=True)
        if question["stem"] == stem
    ]
    assert len(pairs) == SETTINGS
    assert sum(pairs) >= (0.5 if stem in RUNS else 0.95) * len(pairs)

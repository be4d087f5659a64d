"""What marking makes of the wrong answers that trainees give, and of numbers picked at random."""

import math
import random
from collections import Counter
from itertools import groupby

import pytest
from fuelmarks.marking.carrying import Case
from fuelmarks.marking.verdicts import judge
from fuelmarks.questions import Exercise, ExerciseSet, load
from fuelmarks.questions.frame.drawing import margin, to_si

from tests.authoring.test_guards import UNITS
from tests.slips.habits import Habit, habits, sheet_of

DRAWS = 20
HABITS = tuple(habits())
BY_QUESTION = {
    place: tuple(found)
    for place, found in groupby(HABITS, lambda one: f"{one.unit}/{one.question}")
}
PLAIN = {"wrong": "", "implausible": "", "hint:rounding": "close"}
PICKED = 3


@pytest.mark.parametrize("listed", BY_QUESTION.values(), ids=BY_QUESTION)
def test_each_habit_is_told_as_it_is_listed(listed: tuple[Habit, ...]) -> None:
    found = {one.words: one.usual(DRAWS).verdict for one in listed}
    told = {words: PLAIN.get(verdict, verdict) for words, verdict in found.items()}
    assert told == {one.words: one.told.removeprefix("!") for one in listed}


def test_most_are_named_few_accused_and_none_accepted() -> None:
    sorts = Counter(sort(one) for one in HABITS)
    assert sum(sorts.values()) >= 5 * 40
    assert sorts["named"] >= 0.7 * len(HABITS)
    assert sorts["accused"] < 0.02 * len(HABITS)
    assert [one.question for one in HABITS if sort(one) == "accepted"] == ["small-flow-ratio"]


def sort(one: Habit) -> str:
    """Return how a habit is met."""
    if one.told.startswith("!"):
        return "accused"
    if one.told in ("", "close"):
        return "unnamed"
    return "accepted" if one.told == "right" else "named"


def test_what_is_accepted_is_declared_harmless() -> None:
    assert "term-missing:large" in load("06-high-speed")["small-flow-ratio"].harmless


def test_numbers_picked_at_random_are_seldom_named() -> None:
    named = Counter(is_named for unit in UNITS for is_named in of_unit(unit, far=True))
    assert sum(named.values()) > 5000
    assert named[True] < 0.06 * sum(named.values())


def test_near_misses_are_seldom_named() -> None:
    named = Counter(is_named for unit in UNITS for is_named in of_unit(unit, far=False))
    assert sum(named.values()) > 5000
    assert named[True] < 0.03 * sum(named.values())


def read_off(exercise_set: ExerciseSet, exercise: Exercise) -> bool:
    """Say whether a gauge is read from a drawing: there a mark beside is a slip on purpose."""
    drawn = {one.name for one in exercise_set.givens if one.drawn}
    return exercise.sketch is not None and not drawn.isdisjoint(exercise.sketch.givens)


def of_unit(unit: str, *, far: bool) -> list[bool]:
    """Return whether wrong numbers get a name, picked in the range or one to three bands off."""
    exercise_set, chance = load(unit), random.Random(f"{unit} {far}")
    found = []
    for seed in range(DRAWS):
        sheet = sheet_of(unit, seed)
        for exercise in exercise_set:
            if exercise.method is None or (not far and read_off(exercise_set, exercise)):
                continue
            right = sheet.answers[exercise.id]
            band = margin(exercise, right)
            ends = [math.log(to_si(end, exercise.unit)) for end in (exercise.low, exercise.high)]
            for _ in range(PICKED):
                way = chance.choice((-1, 1))
                off = right + way * chance.uniform(1.0001, 3) * band
                value = math.exp(chance.uniform(*ends)) if far else off
                if abs(value - right) > band:
                    verdict = judge(Case(exercise_set, exercise, sheet, {}), value).verdict
                    found.append(":" in verdict and verdict != "hint:rounding")
    return found

"""The checker finds what is broken in a set of exercises."""

from collections.abc import Callable
from dataclasses import replace

import pytest
from fuelmarks.authoring.checker import faults, record_of
from fuelmarks.marking.marking import mark
from fuelmarks.questions import Exercise, ExerciseSet, Slip, load

SET = load("02-float-bowl")


def changed(name: str, change: Callable[[Exercise], Exercise]) -> ExerciseSet:
    """Return the float unit with exercise `name` changed."""
    exercises = tuple(change(one) if one.id == name else one for one in SET)
    return replace(SET, exercises=exercises)


def test_a_chain_that_ignores_the_step_before_is_found() -> None:
    force, lift = SET["needle-force"].reference, SET["buoyancy"].reference
    broken = changed(
        "buoyancy",
        lambda one: replace(
            one,
            reference=lambda given, earlier: lift(given, {"needle-force": force(given, {})}),
        ),
    )
    (found, *_) = faults(broken, range(1))
    assert found == "seed 0: buoyancy: after a wrong needle-force it is marked right"


def test_a_slip_hidden_by_a_step_carried_through_is_found() -> None:
    slip = Slip("ten-times", lambda given, earlier: 10 * earlier["needle-force"], 0.5, "")
    broken = changed("buoyancy", lambda one: replace(one, slips=(*one.slips, slip, slip)))
    with pytest.raises(ArithmeticError, match="draw for 02-float-bowl"):
        list(faults(broken, range(1)))


@pytest.mark.parametrize("value", [2.5, 0.0])
def test_a_record_made_up_is_read_like_one_handed_over(value: float) -> None:
    record = record_of("02-float-bowl", "needle-force", value, "newton")
    found = mark(SET, 1, {"needle-force": record})["needle-force"]
    assert found.verdict in ("wrong", "implausible")

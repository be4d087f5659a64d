"""A press counts only once all that was written before it has arrived, and counts once."""

from collections.abc import Iterator
from typing import Any

import pytest
from fuelcircuits.own_car.press import Press


@pytest.fixture
def acted() -> list[str]:
    return []


@pytest.fixture
def press(acted: list[str]) -> Iterator[Press]:
    made = Press(lambda: acted.append("acted"), description="Write it down")
    yield made
    made.close()


def hear(press: Press, *words: Any) -> None:
    for said in words:
        press._handle_custom_msg(said, [])


def test_a_press_waits_for_what_was_written_before_it(press: Press, acted: list[str]) -> None:
    hear(press, "pressed")
    assert acted == []
    hear(press, "all sent")
    assert acted == ["acted"]


def test_a_button_that_is_shown_twice_acts_once(press: Press, acted: list[str]) -> None:
    hear(press, "pressed", "all sent", "all sent")
    assert acted == ["acted"]


def test_a_press_that_comes_twice_before_it_counts_acts_once(
    press: Press, acted: list[str]
) -> None:
    hear(press, "pressed", "pressed", "all sent", "all sent")
    assert acted == ["acted"]


@pytest.mark.parametrize("said", ["all sent", "", None, {"pressed": 1}])
def test_nothing_else_counts(press: Press, acted: list[str], said: Any) -> None:
    hear(press, said)
    assert acted == []

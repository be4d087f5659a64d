"""Choices and switches: only their own words, and what the browser is told."""

import pytest
from fuelcircuits.errors import RangeError

from tests.benches.frame.tank import TankBench


def test_choice_starts_where_it_says_and_takes_its_own_words() -> None:
    tank = TankBench()
    assert tank.shape == "round"
    tank.shape = "square"
    assert tank.shape == "square"


@pytest.mark.parametrize("word", ["a round one", "", 1, None])
def test_choice_refuses_every_other_word_and_names_its_own(word: object) -> None:
    with pytest.raises(RangeError, match=f"shape must be one of round, square, got {word!r}"):
        TankBench().put(shape=word)


def test_switch_is_off_unless_it_says_otherwise_and_refuses_numbers() -> None:
    assert TankBench().leak is False
    with pytest.raises(RangeError, match="leak must be True or False, got 2"):
        TankBench().put(leak=2)


def test_browser_is_told_label_words_and_start() -> None:
    spec = TankBench.shape.spec("square")
    assert (spec["kind"], spec["label"], spec["start"]) == ("choice", "Shape", "square")
    assert [each["text"] for each in spec["options"]] == ["a round one", "a square one"]
    assert TankBench.leak.spec(True)["start"] is True

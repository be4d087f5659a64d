"""Choices and switches: only their own words, and what the browser is told."""

import pytest
import traitlets
from fuelcircuits.benches.frame.choice import Choice, Switch


class Shelf(traitlets.HasTraits):
    nozzle = Choice("Main nozzle", {"bled": "air-bled well", "plain": "plain tube"}, "bled")
    leak = Switch("Vacuum hose off")


def test_choice_starts_where_it_says_and_takes_its_own_words() -> None:
    shelf = Shelf()
    assert shelf.nozzle == "bled"
    shelf.nozzle = "plain"
    assert shelf.nozzle == "plain"


@pytest.mark.parametrize("word", ["air-bled well", "", 1, None])
def test_choice_refuses_every_other_word_and_names_its_own(word: object) -> None:
    with pytest.raises(traitlets.TraitError, match="nozzle must be one of bled, plain, got"):
        Shelf().set_trait("nozzle", word)


def test_switch_is_off_unless_it_says_otherwise_and_refuses_numbers() -> None:
    assert Shelf().leak is False
    with pytest.raises(traitlets.TraitError, match="leak"):
        Shelf().set_trait("leak", 2)


def test_browser_is_told_label_words_and_start() -> None:
    spec = Shelf.nozzle.spec("plain")
    assert (spec["kind"], spec["label"], spec["start"]) == ("choice", "Main nozzle", "plain")
    assert [each["text"] for each in spec["options"]] == ["air-bled well", "plain tube"]
    assert Shelf.leak.spec(True)["start"] is True

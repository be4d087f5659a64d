"""Verdicts in words, and what a verdict of several families names."""

import pytest
from fuelmarks.marking.verdicts import families_in
from fuelmarks.marking.wording import SHORT, WORDS, level, short, words


@pytest.mark.parametrize(
    ("verdict", "said", "shortly"),
    [
        ("right", "right", "right"),
        ("slip:power-of-ten", "slip: power of ten", "slip"),
        ("hint:wrong-arm/upside-down", "looks like wrong arm or upside down", "hint"),
        ("no-unit", "no unit", "unit?"),
        ("something-new", "something-new", "somet"),
    ],
)
def test_a_verdict_is_said_in_words_and_in_five_letters(
    verdict: str, said: str, shortly: str
) -> None:
    assert (words(verdict), short(verdict)) == (said, shortly)


def test_every_verdict_in_words_has_a_short_form_that_fits_a_column() -> None:
    assert SHORT.keys() == WORDS.keys()
    assert all(len(word) <= 5 for word in SHORT.values())


@pytest.mark.parametrize(
    ("verdict", "families"),
    [("hint:one/two", ("one", "two")), ("hint:one", ("one",)), ("slip:one", ()), ("wrong", ())],
)
def test_only_a_hint_names_families(verdict: str, families: tuple[str, ...]) -> None:
    assert families_in(verdict) == families


LEVELS = {
    1.0: "can do",
    0.8: "can do",
    0.79: "nearly",
    0.5: "nearly",
    0.49: "not yet",
    0: "not yet",
    None: "no evidence",
}


@pytest.mark.parametrize(("share", "word"), LEVELS.items())
def test_levels_begin_where_they_say(share: float | None, word: str) -> None:
    assert level(share) == word

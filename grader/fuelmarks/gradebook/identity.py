"""Whose notebook this is, and of which unit: told by what it holds, never by its file's name.

The term's key says which numbers belong to whom, so the name in a notebook and the numbers in it
can be held together: one trainee's numbers under another's name are seen, and so is a key that
is not the one with which the notebooks were handed out.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from typing import Literal

from fuelmarks.course.class_list import SPECIMEN
from fuelmarks.course.course import Course
from fuelmarks.course.personal import sheet_of
from fuelmarks.gradebook.claim import Claim
from fuelmarks.questions import ExerciseSet, Sheet

__all__ = ["Fit", "Misfit", "Numbers", "misfit"]

BEFORE, AFTER = re.compile(r"[\w.,]$"), re.compile(r"\w|[.,]\d")
"""What makes a number a part of another, before it and after it."""
FEWEST = 3
"""How many numbers must fit before they alone may tell whose a notebook is."""


@dataclass(frozen=True)
class Misfit:
    """Why a notebook cannot be somebody's work in a unit, in a word and in a sentence."""

    kind: Literal["another unit", "another's", "nobody's", "other numbers"]
    words: str


@dataclass(frozen=True)
class Fit:
    """How many of a sheet's numbers a notebook shows, and how many it shows otherwise.

    Of those, `edited` are right elsewhere in it, or stand where they are easily written over.
    """

    same: int
    other: int
    edited: int

    @property
    def belongs(self) -> bool:
        """Say whether the notebook goes with the sheet."""
        return self.other == 0 or (self.same > self.other and self.other == self.edited)


class Numbers:
    """The numbers of one unit by trainee, drawn as they are asked for."""

    def __init__(self, course: Course, exercise_set: ExerciseSet) -> None:
        self.exercise_set = exercise_set
        self._mentions = cache(
            lambda name: [one.id for one in exercise_set if f"{{{name}}}" in one.ask]
        )
        self.sheet = cache(lambda trainee: sheet_of(course, exercise_set, trainee))

    def fit(self, claim: Claim, trainee: str) -> Fit:
        """Return how far the numbers in a notebook are those of `trainee`.

        The questions count; the set-up, which can be written over by mistake, where none is left.
        """
        sheet: Sheet = self.sheet(trainee)
        setup = {name: _set_up(sheet, name, claim) for name in sheet.givens_shown}
        asked = {name: self._asked(sheet, name, claim) for name in sheet.givens_shown}
        seen = asked if any(one is not None for one in asked.values()) else setup
        wrong = [name for name, one in seen.items() if one is False]
        edited = sum(setup[name] is True for name in wrong) if seen is asked else len(wrong)
        return Fit(sum(one is True for one in seen.values()), len(wrong), edited)

    def owner(self, claim: Claim, everyone: Iterable[str]) -> str:
        """Return the one trainee whose numbers a notebook shows, all of them; else nothing."""
        fits = {one: self.fit(claim, one) for one in everyone}
        whole = [one for one, fit in fits.items() if fit.other == 0 and fit.same >= FEWEST]
        return whole[0] if len(whole) == 1 else ""

    def _asked(self, sheet: Sheet, name: str, claim: Claim) -> bool | None:
        """Return whether a question shows a given as the sheet has it; None if none mentions it."""
        asks = [_plain(claim.asks[one]) for one in self._mentions(name) if one in claim.asks]
        shown = _plain(sheet.givens_shown[name].text)
        return any(_stands_in(ask, shown) for ask in asks) if asks else None


def misfit(
    numbers: Numbers, claim: Claim, trainee: str, everyone: Iterable[str] = ()
) -> Misfit | None:
    """Return why a notebook cannot be the work of `trainee` in this unit; None if it can."""
    exercise_set = numbers.exercise_set
    if claim.unit and claim.unit not in (exercise_set.unit, exercise_set.lot):
        return Misfit("another unit", f"holds unit {claim.unit}, not {exercise_set.unit}")
    if not claim.unit and not claim.asks:
        nothing = f"holds neither the set-up cell nor a question of {exercise_set.unit}"
        return Misfit("nobody's", nothing)
    if claim.trainee == SPECIMEN:
        return Misfit("nobody's", "is the notebook for learning alone, with the specimen's numbers")
    if claim.trainee not in ("", trainee):
        return Misfit("another's", f"is the notebook of {claim.trainee}")
    return _other_numbers(numbers, claim, trainee, everyone)


def _other_numbers(
    numbers: Numbers, claim: Claim, trainee: str, everyone: Iterable[str]
) -> Misfit | None:
    """Return whose numbers a notebook holds if not those of `trainee`; None if they are his."""
    if numbers.fit(claim, trainee).belongs:
        return None
    if owner := numbers.owner(claim, everyone):
        return Misfit("another's", f"holds the numbers of {owner} under the name of {trainee}")
    return Misfit(
        "other numbers",
        "holds numbers of nobody in the class: the key in term.toml, or the unit, is not the one "
        "with which it was handed out",
    )


def _set_up(sheet: Sheet, name: str, claim: Claim) -> bool | None:
    """Return whether the set-up gives a number as the sheet has it; None if it does not."""
    given = claim.givens.get(name)
    return None if given is None else _bare(given) == _bare(sheet.givens_shown[name].literal)


def _stands_in(text: str, shown: str) -> bool:
    """Return whether a number stands in `text` by itself, not as a part of another."""
    parts = text.split(shown)
    return any(
        not BEFORE.search(before) and not AFTER.match(after) for before, after in pairwise(parts)
    )


def _plain(text: str) -> str:
    """Return `text` with single spaces, and without marks of emphasis."""
    return " ".join(text.replace("*", "").split())


def _bare(literal: str) -> str:
    """Return a number's code without spaces and with one kind of quotes."""
    return re.sub(r"\s", "", literal).replace("'", '"')

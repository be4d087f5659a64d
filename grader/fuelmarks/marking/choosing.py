"""What an answer given by name amounts to: the right one, a near one, too dear, or wrong."""

import re

from fuelcircuits.answer_sheet.refusals import tidy
from fuelcircuits.errors import CircuitError
from fuelcircuits.quantities.naming import names_in

from fuelmarks.marking.verdicts import RIGHT, Finding
from fuelmarks.questions import Choice, Driven, Selection, Sheet
from fuelmarks.questions.frame.driven import ALL_KEPT

__all__ = ["NO_NAME", "choose"]

NO_NAME = "not-a-name"
ONE_ONLY = "Name one only: the one that explains every reading."
WRONG = "Not right. Go through your readings again: which of them does this not explain?"
NOT_ENOUGH = "These do not settle it: with the same results, something else could be wrong too."


def choose(exercise: Choice | Selection, sheet: Sheet, text: str, beside: str = "") -> Finding:
    """Return what the names in `text` amount to.

    `beside` is the answer to the question that says what the trainee has looked at, if any.
    """
    if isinstance(exercise, Driven):
        return _driven(exercise, text)
    found = names_in(text, exercise.options)
    if not found.known or found.unknown:
        return Finding(NO_NAME, 0.0, found.complaint or "Write a name from the list.")
    if isinstance(exercise, Selection):
        return _selected(exercise, sheet, found.known)
    if len(found.known) > 1:
        return Finding(NO_NAME, 0.0, ONE_ONLY)
    return _chosen(exercise, sheet, found.known[0], beside)


def _driven(exercise: Driven, text: str) -> Finding:
    """Return what a drive amounts to, driven again: the limits it kept, and every slip."""
    try:
        found = exercise.judged(text)
    except CircuitError as error:
        return Finding(NO_NAME, 0.0, f"This drive cannot be marked: {tidy(str(error))}.")
    name = exercise.outcome(found)
    if name == ALL_KEPT:
        return RIGHT
    slips = " ".join(one.words for one in found.verdicts if not one.kept)
    return Finding(f"slip:{name}", found.share, slips)


def _chosen(exercise: Choice, sheet: Sheet, name: str, beside: str) -> Finding:
    """Return what one name amounts to."""
    if (name,) == exercise.wanted(sheet.givens):
        return RIGHT
    if name in exercise.near:
        return Finding(f"slip:{name}", *exercise.near[name])
    if exercise.against is None:
        return Finding("wrong", 0.0, WRONG)
    looked_at = frozenset(re.findall(r"[a-z0-9-]+", beside.lower().replace("_", "-")))
    return Finding("wrong", 0.0, exercise.against(sheet.givens, name, looked_at))


def _selected(exercise: Selection, sheet: Sheet, names: tuple[str, ...]) -> Finding:
    """Return what several names amount to: as much as the cheapest cost beside their own."""
    if not exercise.enough(sheet.givens, frozenset(names)):
        return Finding("wrong", 0.0, NOT_ENOUGH)
    cost, least = exercise.cost(names), exercise.cost(exercise.wanted(sheet.givens))
    if cost <= least:
        return RIGHT
    spent = f"{cost:g} {exercise.cost_unit}"
    return Finding("slip:too-dear", least / cost, f"That settles it, for {spent}. Less will do.")

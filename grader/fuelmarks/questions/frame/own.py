"""The questions of a unit with what an instructor's own file changes and adds."""

from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache

from fuelmarks.questions.frame.block import Block, read_block
from fuelmarks.questions.frame.entries import Entries
from fuelmarks.questions.frame.exercise import Exercise, ExerciseSet, Prediction
from fuelmarks.questions.frame.worded import BlockError

__all__ = ["own_questions"]

CHANGE = ("id", "points", "tolerance", "figures", "void")
NOTHING = ExerciseSet("", "", (), ())


@lru_cache(maxsize=256)
def own_questions(
    unit: str, base: ExerciseSet | None, blocks: tuple[tuple[str, str], ...]
) -> ExerciseSet:
    """Return the questions of `unit`.

    Parameters
    ----------
    unit
        The unit's name.
    base
        The questions that come with this package, if there are any.
    blocks
        Name and text of the instructor's own file: as it was when numbers were first drawn, if
        that was kept, and as it is now. A number once drawn stays as it is.

    Raises
    ------
    BlockError
        If one of them cannot be used: file, question, rule and value.
    """
    made = base
    for name, text in blocks:
        made = _with_block(unit, base or NOTHING, read_block(text, name, base), name, made)
    if made is None:
        raise BlockError(f"unit must have questions, got none of {unit}")
    return made


def _with_block(
    unit: str, base: ExerciseSet, block: Block, name: str, before: ExerciseSet | None
) -> ExerciseSet:
    """Return what `base` becomes by a block; numbers stay as the set `before` draws them."""
    exercises: tuple[Exercise, ...] = (*base.exercises, *block.exercises)
    if not exercises:
        raise BlockError(f"{name} must have a question, got none")
    changes, void = _changes(block.changes, exercises, name)
    beside = {one.id for one in block.exercises} | {one.id for one in block.written}
    return ExerciseSet(
        unit,
        block.title or base.title or unit[3:].replace("-", " ").capitalize(),
        (*base.givens, *block.givens),
        tuple(changes.get(one.id, one) for one in exercises),
        base.first_name,
        frozenset(beside),
        block.written,
        void,
        before,
        _predictions(base, block),
    )


def _predictions(base: ExerciseSet, block: Block) -> tuple[Prediction, ...]:
    """Return the keys of `base`, and those of a block, which go before."""
    named = {one.id: one for one in (*base.predictions, *block.predictions)}
    return tuple(named.values())


def _changes(
    plain: tuple[Mapping[str, object], ...], exercises: tuple[Exercise, ...], name: str
) -> tuple[dict[str, Exercise], dict[str, str]]:
    """Return every question that is changed as it is then, and why those marked by hand are void.

    Which questions are marked by hand, the unit's text says too, so any other id may be one.
    """
    known = {one.id: one for one in exercises}
    changed: dict[str, Exercise] = {}
    void: dict[str, str] = {}
    for each in plain:
        asked = each.get("id")
        entries = Entries(f"{name}: change {asked}", each, CHANGE)
        if entries.text("id") in known:
            changed[str(asked)] = _changed(known[str(asked)], entries)
        elif set(each) == {"id", "void"}:
            void[str(asked)] = entries.text("void")
        else:
            rule = "must be of one of"
            raise BlockError(f"{entries.where} {rule} {', '.join(known)}, got {asked!r}")
    return changed, void


def _changed(exercise: Exercise, entries: Entries) -> Exercise:
    """Return a question with other points, another tolerance, or as one that counts no more."""
    made = replace(exercise, points=int(entries.number("points", exercise.points, 1, 100)))
    if "tolerance" in entries.plain:
        made = replace(made, tolerance=entries.number("tolerance", 0.02, 1e-6, 0.5))
    if "figures" in entries.plain:
        made = replace(made, figures=int(entries.number("figures", 3, 1, 6)))
    if why := entries.text("void", ""):
        made = replace(made, void=why, points=0)
    return made

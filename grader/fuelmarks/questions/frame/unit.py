"""The questions of a unit of this package: its block of TOML, and those that need Python."""

from collections.abc import Mapping, Sequence
from importlib.resources import files

from fuelmarks.questions.frame.block import read_block
from fuelmarks.questions.frame.exercise import Exercise, ExerciseSet
from fuelmarks.questions.frame.worded import BlockError

__all__ = ["unit_of"]

BLOCK = "questions.toml"


def unit_of(
    package: str,
    *,
    unit: str,
    first_name: str = "",
    after: Mapping[str, Sequence[Exercise]] | None = None,
) -> ExerciseSet:
    """Return the questions of `unit`, whose block lies in `package` as ``questions.toml``.

    Parameters
    ----------
    package
        The room of the unit, such as ``fuelmarks.questions.float_bowl``.
    unit
        The unit's name.
    first_name
        The name under which its numbers were first drawn, if it had another.
    after
        Questions made in Python, by the id of the one they follow; those by "" come first.

    Raises
    ------
    BlockError
        If the block cannot be used, or `after` names a question that is not in it.
    """
    block = read_block(files(package).joinpath(BLOCK).read_text("utf-8"), f"{unit}/{BLOCK}")
    placed = _placed(block.exercises, after or {})
    foretold = block.predictions
    return ExerciseSet(unit, block.title, block.givens, placed, first_name, predictions=foretold)


def _placed(
    asked: Sequence[Exercise], after: Mapping[str, Sequence[Exercise]]
) -> tuple[Exercise, ...]:
    """Return the questions of a block with others in their places."""
    ids = ("", *(each.id for each in asked))
    for name in after:
        if name not in ids:
            raise BlockError(f"question before others must be one of {ids[1:]}, got {name!r}")
    rows = ((each, *after.get(each.id, ())) for each in asked)
    return (*after.get("", ()), *(each for row in rows for each in row))

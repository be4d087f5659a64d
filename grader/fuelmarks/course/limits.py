"""The limits of every sheet, each written once: ``units/limits.toml``.

One line a limit: a name, and the number of the card as `card_number` reads it::

    float-setting = "float_bowl.float_setting in mm to 0.1, +- 0.4"

A sheet says ``{card: float-setting}`` for the number and ``{limit: float-setting}`` for between
what it is good, so that no two sheets can differ.
"""

import difflib
import tomllib
from collections.abc import Mapping
from pathlib import Path

from fuelmarks.course.card_number import CardNumber, card_number
from fuelmarks.course.error import CourseError

__all__ = ["FILE", "named", "read_limits"]

FILE = "limits.toml"
"""Name of the file beside the units."""


def read_limits(path: Path) -> Mapping[str, CardNumber]:
    """Return the limits in a file, none if there is no file; raise `CourseError` naming a fault."""
    if not path.is_file():
        return {}
    try:
        lines = tomllib.loads(path.read_text(encoding="utf-8"))
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as error:
        raise CourseError(f"{path.name} must be a file of TOML, got: {error}") from error
    limits = {}
    for name, asked in lines.items():
        if not isinstance(asked, str):
            raise CourseError(f"{path.name}: {name} must be a text, got {asked!r}")
        try:
            limits[name] = card_number(asked)
        except CourseError as error:
            raise CourseError(f"{path.name}: {name}: {error}") from error
    return limits


def named(limits: Mapping[str, CardNumber], asked: str) -> CardNumber:
    """Return the limit of a name, or the number that `asked` spells out.

    Raises
    ------
    CourseError
        If it is neither; the name most like it is told.
    """
    if "." in asked:
        return card_number(asked)
    if asked in limits:
        return limits[asked]
    near = difflib.get_close_matches(asked, limits, n=1, cutoff=0.5)
    rule = f"did you mean {near[0]}?" if near else f"{FILE} has none such"
    raise CourseError(f"limit must be one of {FILE} ({rule}), got {asked!r}")

"""Questions of a block that are answered by name or in words: an option to choose, a text.

A choice has `options`, and says which is `right`; a wrong one may be `near`, with its own words::

    [[question]]
    id      = "what-sticks"
    ask     = "The level creeps up at rest. What is wrong?"
    right   = "needle"
    points  = 2
    [question.options]
    needle  = "the needle does not close"
    float   = "the float has drunk fuel"
    [question.near]
    float   = "A heavy float lifts the level too. Does it creep up at rest?"

A written question has a `rubric`, which whoever marks by hand sees::

    [[question]]
    id      = "say-why"
    ask     = "Why does the level fall when more fuel is drawn?"
    rubric  = "- 1 point: the needle has to open further."
    points  = 4

A prediction is asked in the unit's text, with answers A, B and so on; a block holds its key::

    [[prediction]]
    id      = "pump-pressure"
    right   = "A"
    why     = "The needle has to be held against more, so more of the float goes under."
"""

import re
from collections.abc import Collection, Mapping

from fuelmarks.questions.frame.choice import Choice, Near
from fuelmarks.questions.frame.entries import Entries
from fuelmarks.questions.frame.exercise import Prediction, Written
from fuelmarks.questions.frame.sketched import sketch_from
from fuelmarks.questions.frame.worded import BlockError

__all__ = ["choice_from", "prediction_from", "written_from"]

SHARE = 0.25
CHOICE = ("id", "ask", "options", "right", "near", "points", "why", "outcomes", "hints", "sketch")
WRITTEN = ("id", "ask", "rubric", "points")
PREDICTION = ("id", "right", "why")


def choice_from(where: str, plain: Mapping[str, object], givens: Collection[str] = ()) -> Choice:
    """Return the choice that `plain` describes; raise `BlockError` if it is none."""
    entries = Entries(where, plain, CHOICE)
    options = _options(entries)
    right, near = entries.text("right"), _near(entries, options)
    if right not in options:
        listed = ", ".join(options)
        raise BlockError(f"{where}: right must be one of {listed}, got {right!r}")
    return Choice(
        id=entries.name("id"),
        ask=entries.text("ask"),
        options=options,
        right=lambda given: right,
        near=near,
        why=entries.text("why", ""),
        points=int(entries.number("points", 1, 1, 100)),
        outcomes=entries.texts("outcomes"),
        hints=entries.texts("hints"),
        sketch=sketch_from(where, entries.text("sketch", ""), givens),
    )


def written_from(where: str, plain: Mapping[str, object]) -> Written:
    """Return the written question that `plain` describes; raise `BlockError` if it is none."""
    entries = Entries(where, plain, WRITTEN)
    points = int(entries.number("points", 1, 1, 100))
    return Written(entries.name("id"), entries.text("ask"), entries.text("rubric"), points)


def prediction_from(where: str, plain: Mapping[str, object]) -> Prediction:
    """Return the key that `plain` describes; raise `BlockError` if it is none."""
    entries = Entries(where, plain, PREDICTION)
    right = entries.text("right")
    if not re.fullmatch(r"[A-Z]", right):
        raise BlockError(f"{where}: right must be one capital letter, got {right!r}")
    return Prediction(entries.name("id"), right, entries.text("why"))


def _options(entries: Entries) -> dict[str, str]:
    """Return the options by name, two or more, each with its words."""
    options = {name: str(words) for name, words in entries.table("options").items()}
    strange = [name for name in options if not re.fullmatch(r"[a-z][a-z0-9-]{0,60}", name)]
    if strange:
        rule = "options must have names of small letters, digits and hyphens"
        raise BlockError(f"{entries.where}: {rule}, got {strange[0]!r}")
    if len(options) < 2:
        raise BlockError(f"{entries.where} must have two options or more, got {len(options)}")
    return options


def _near(entries: Entries, options: Mapping[str, str]) -> dict[str, Near]:
    """Return what is said to the wrong options that still earn a share."""
    near = {name: (SHARE, str(words)) for name, words in entries.table("near").items()}
    for name in near:
        if name not in options or name == entries.text("right"):
            rule = "near must name wrong options"
            raise BlockError(f"{entries.where}: {rule}, got {name!r}")
    return near

"""Questions that mark one part of a section and ask for its name."""

from collections.abc import Sequence

from fuelcircuits.cards import read_card
from fuelcircuits.drawings.number import Number
from fuelcircuits.drawings.parts import part
from fuelcircuits.drawings.picture import Picture
from fuelcircuits.drawings.sketches.find import find

from fuelmarks.questions.frame.choice import Choice
from fuelmarks.questions.frame.exercise import Values
from fuelmarks.questions.frame.sketch import Sketch

__all__ = ["find_part"]

SHARE = 0.0
"""What the name of another part earns."""


def find_part(
    name: str, section: str, parts: Sequence[str], given: str, outcomes: tuple[str, ...]
) -> Choice:
    """Return the question which part of a section is marked.

    Parameters
    ----------
    name
        The question's id.
    section
        The section's name, as in ``:::{section} off-idle``.
    parts
        Ids of the parts it may be, which are the options too.
    given
        The name of the drawn given that says which of them it is, from nought.
    outcomes
        What is shown by a right answer.
    """

    def marked(given_values: Values) -> str:
        return parts[round(given_values[given])]

    def drawn(card: str, numbers: Sequence[Number]) -> Picture:
        (which,) = numbers
        return find(section, read_card(card, "card.toml"), parts[round(which.value)])

    return Choice(
        id=name,
        ask="The drawing shows the carburettor of this unit cut open, and a question mark stands "
        "at one part. Which part is it?",
        options={one: part(one).name for one in parts},
        right=marked,
        near={one: (SHARE, _told(one)) for one in parts},
        why="Each part is known by where it stands and by what goes through it.",
        points=1,
        outcomes=outcomes,
        hints=("Follow the fuel or the air to the mark: what has it passed before, what after?",),
        sketch=Sketch(drawn, (given,)),
    )


def _told(name: str) -> str:
    """Return what is said to whoever names this part where another is marked."""
    job = part(name).job
    return f"No: the {part(name).name} is elsewhere. Its job: {job[0].lower()}{job[1:]}"

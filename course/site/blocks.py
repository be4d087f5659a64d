"""What a unit's directives are on a page to read: questions without their answers."""

from collections.abc import Iterable
from typing import NamedTuple

from fuelcircuits.drawings.picture import Picture
from fuelmarks.course.cells import sketch_picture
from fuelmarks.course.directives import EXAMPLES, Directive
from fuelmarks.course.examples import Example, example_of, gaps_text, worked_text
from fuelmarks.questions import Choice, ExerciseSet, Selection, Sheet

__all__ = ["Asked", "block", "box", "raw", "section"]

RUBRIC = "### Rubric"
BEGIN = (
    "In the notebook a cell stands here that lays out your own numbers. Here the questions have "
    "those of an invented reader:"
)


class Asked(NamedTuple):
    """What a unit asks an invented reader: its questions, his numbers, and the text of its card."""

    exercises: ExerciseSet
    sheet: Sheet
    card: str


def block(found: Directive, asked: Asked) -> str:
    """Return a directive as MyST."""
    if found.kind == "begin":
        return _numbers(asked)
    if found.kind == "predict":
        return box("Your prediction", found.body, "predict")
    if found.kind in EXAMPLES:
        example = example_of(found, asked.exercises)
        steps = worked_text(example) if found.kind == "worked" else _gaps(example)
        return box("Worked out" if found.kind == "worked" else "With gaps", steps, "example")
    if found.kind == "written":
        return box(_title(found.name, found.points()), found.body.partition(RUBRIC)[0], "question")
    return _question(found.name, asked)


def _gaps(example: Example) -> str:
    """Return an example with gaps: what is told, the steps in words, and what the last comes to."""
    *most, last = example.lines
    steps = [f"{one.words} = …" for one in most]
    steps.append(f"{last.words} = … It should come to {last.result.split(' = ')[-1]}.")
    listed = "\n".join(f"{n}. {one[0].upper()}{one[1:]}" for n, one in enumerate(steps, 1))
    return f"{gaps_text(example)}\n\n{listed}"


def box(title: str, body: str, kind: str) -> str:
    """Return a box with a title."""
    return f":::{{admonition}} {title}\n:class: {kind}\n\n{body.strip()}\n:::"


def _drawn(picture: Picture) -> str:
    """Return a drawing as it is, so that it takes the colours of the page."""
    return raw(_line(picture))


def section(picture: Picture) -> str:
    """Return a section likewise; a page that is narrower scrolls it sideways, by keys too."""
    svg = _line(picture)
    keys = "" if "<a " in svg else ' tabindex="0" role="group" aria-label="Drawing"'
    return raw(f'<div class="fd-wide"{keys}>{svg}</div>')


def _line(picture: Picture) -> str:
    return picture.svg.replace("\n", " ")


def raw(html: str) -> str:
    """Return HTML that stands in the page as it is."""
    return f"`````{{raw}} html\n{html}\n`````"


def _question(name: str, asked: Asked) -> str:
    one = asked.exercises[name]
    parts = [asked.sheet.ask(one.ask)]
    if one.sketch:
        parts.append(_drawn(sketch_picture(one.sketch, asked.sheet, asked.card)))
    if isinstance(one, Choice | Selection):
        parts.append("\n".join(f"- `{option}`: {words}" for option, words in one.options.items()))
    return box(_title(name, one.points), "\n\n".join(parts), "question")


def _numbers(asked: Asked) -> str:
    rows = [
        (given.meaning, asked.sheet.givens_shown[given.name].text)
        for given in asked.exercises.givens
        if not given.drawn
    ]
    return box(
        "The numbers on this page", f"{BEGIN}\n\n{table(('given', 'here'), rows)}", "numbers"
    )


def table(heads: Iterable[str], rows: Iterable[Iterable[str]]) -> str:
    """Return a table as MyST."""
    heads = list(heads)
    lines = [heads, ["---"] * len(heads), *rows]
    return "\n".join(f"| {' | '.join(cell.replace('|', '/') for cell in line)} |" for line in lines)


def _title(name: str, points: int) -> str:
    """Return the heading of a question: its name and what it is worth."""
    words = name.replace("-", " ").capitalize()
    return f"{words} · {points} point{'' if points == 1 else 's'}"

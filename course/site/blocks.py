"""What a unit's directives are on a page to read: questions without their answers."""

from collections.abc import Iterable

from fuelmarks.course.directives import EXAMPLES, Directive
from fuelmarks.course.examples import example_of, gaps_text, worked_text
from fuelmarks.questions import Choice, ExerciseSet, Selection, Sheet

__all__ = ["block", "box"]

RUBRIC = "### Rubric"
BEGIN = (
    "In the notebook a cell stands here that lays out your own numbers. Here the questions have "
    "those of an invented reader:"
)


def block(found: Directive, exercises: ExerciseSet, sheet: Sheet) -> str:
    """Return a directive as MyST."""
    if found.kind == "begin":
        return _numbers(exercises, sheet)
    if found.kind == "predict":
        return box("Your prediction", found.body, "predict")
    if found.kind in EXAMPLES:
        example = example_of(found, exercises)
        steps = worked_text(example) if found.kind == "worked" else gaps_text(example)
        return box("Worked out" if found.kind == "worked" else "With gaps", steps, "example")
    if found.kind == "written":
        return box(_title(found.name, found.points()), found.body.partition(RUBRIC)[0], "question")
    return _question(found.name, exercises, sheet)


def box(title: str, body: str, kind: str) -> str:
    """Return a box with a title."""
    return f":::{{admonition}} {title}\n:class: {kind}\n\n{body.strip()}\n:::"


def _question(name: str, exercises: ExerciseSet, sheet: Sheet) -> str:
    one = next(each for each in exercises if each.id == name)
    parts = [sheet.ask(one.ask)]
    if isinstance(one, Choice | Selection):
        parts.append("\n".join(f"- `{option}`: {words}" for option, words in one.options.items()))
    return box(_title(name, one.points), "\n\n".join(parts), "question")


def _numbers(exercises: ExerciseSet, sheet: Sheet) -> str:
    rows = [
        (given.meaning, sheet.givens_shown[given.name].text)
        for given in exercises.givens
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

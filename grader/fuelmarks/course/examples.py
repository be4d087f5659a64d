"""Examples before a sum: one worked out, one with gaps, both by the formula of the sum itself.

An example stands in a unit's text as ``:::{worked} needle-force`` or ``:::{gaps} needle-force``.
Its first lines give the invented numbers, ``seat_bore = 2.4 mm``; after an empty line comes what
happened in the shop, with ``{seat_bore}`` where a number belongs.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from fuelcircuits.errors import UnitError
from fuelcircuits.quantities.number_text import parts
from fuelcircuits.quantities.trade_units import labelled, scale

from fuelmarks.course.directives import Directive
from fuelmarks.formula.functions import CONSTANTS
from fuelmarks.formula.kinds import kind_of_unit
from fuelmarks.formula.method import Method
from fuelmarks.formula.worked import Line, worked_lines
from fuelmarks.questions import Exercise, ExerciseSet

__all__ = ["Example", "example_of", "gaps_code", "gaps_text", "worked_text"]

GIVEN = re.compile(r"([a-z]\w*) = (.+)")
NAMED = re.compile(r"\{(\w+)\}")
HOW = '# For each ... write a value, such as "1.2 mm", or a formula. Nothing is marked.'
FILL = """\
if ... in ({names}):
    print("There are still gaps above.")
else:
    print({last}, "; it should come to {control}")"""


@dataclass(frozen=True)
class Example:
    """One example: the question it prepares, what is told, and the lines that work it out."""

    exercise: Exercise
    told: str
    lines: tuple[Line, ...]

    @property
    def title(self) -> str:
        """Return the question's name as a heading says it."""
        return self.exercise.id.replace("-", " ").capitalize()


def example_of(directive: Directive, exercise_set: ExerciseSet) -> Example:
    """Return the example that `directive` writes down.

    Raises `CourseError` if its question, a number or a name in it is not what it must be.
    """
    method = _method(directive, exercise_set)
    head, _, told = directive.body.partition("\n\n")
    given = dict(_given(directive, line) for line in head.splitlines())
    needed = [name for name in method.formula.needs if name not in _constants(method)]
    if set(given) != set(needed):
        raise directive.refuse(f"numbers must be those of {', '.join(needed)}", sorted(given))
    return Example(
        exercise=exercise_set[directive.name],
        told=_filled(directive, told.strip(), given),
        lines=tuple(_lines(directive, method, given)),
    )


def _method(directive: Directive, exercise_set: ExerciseSet) -> Method:
    """Return the formula that the example shows."""
    methods = {one.id: one.method for one in exercise_set if one.method}
    if directive.name not in methods:
        rule = f"{directive.kind} must be of one of {', '.join(methods)}"
        raise directive.refuse(rule, directive.name)
    return methods[directive.name]


def _constants(method: Method) -> set[str]:
    return {*method.constants, *CONSTANTS}


def _given(directive: Directive, line: str) -> tuple[str, tuple[float, str]]:
    """Return name, number and unit that a line gives."""
    found = GIVEN.fullmatch(line.strip())
    if not found:
        raise directive.refuse("number must be written like seat_bore = 2.4 mm", line)
    try:
        numbers, unit, _ = parts(found[2])
        scale(unit or "1")
    except UnitError as error:
        raise directive.refuse(str(error), line) from error
    return found[1], (numbers[0], unit)


def _filled(directive: Directive, told: str, given: Mapping[str, tuple[float, str]]) -> str:
    """Return the text with its numbers in place."""
    if strange := sorted(set(NAMED.findall(told)) - set(given)):
        raise directive.refuse(f"text must name one of {', '.join(given)}", strange[0])
    if not told:
        raise directive.refuse(f"{directive.kind} must say what happened in the shop", told)
    shown = {name: labelled(f"{number:g}", unit) for name, (number, unit) in given.items()}
    return NAMED.sub(lambda hit: shown[hit[1]], told)


def _lines(
    directive: Directive, method: Method, given: Mapping[str, tuple[float, str]]
) -> list[Line]:
    """Return the steps in these numbers."""
    ways = {name: scale(unit or "1") for name, (_, unit) in given.items()}
    values = {
        name: ways[name].factor * number + ways[name].offset for name, (number, _) in given.items()
    }
    own = {name: each.unit for name, each in method.constants.items()}
    units = own | {name: unit for name, (_, unit) in given.items()}
    for name, (_, unit) in given.items():
        if kind_of_unit(unit) != kind_of_unit(method.units[name]):
            raise directive.refuse(f"{name} must have a unit of its kind", unit)
    return worked_lines(
        method.formula,
        method.values(values, {}),
        units,
        method.proved(),
        method.unit,
        tables=method.tables,
    )


def worked_text(example: Example) -> str:
    """Return the example as Markdown: what happened, and every step with its numbers."""
    steps = [f"{place}. {_step(line)}" for place, line in enumerate(example.lines, 1)]
    return "\n\n".join((_told(example), "\n".join(steps)))


def gaps_text(example: Example) -> str:
    """Return what is told of the example before the cell with its gaps, as Markdown."""
    return _told(example)


def _told(example: Example) -> str:
    return f"**{example.title}** (invented numbers). {example.told}"


def _step(line: Line) -> str:
    """Return one step, with what was turned into other units before it."""
    first = ", ".join(f"{one.shown} = {one.turned}" for one in line.conversions)
    words = line.words[0].upper() + line.words[1:]
    return f"{words}{f' ({first})' if first else ''}: {line.text} = **{line.result}**"


def gaps_code(example: Example) -> str:
    """Return the cell with the gaps: a line a step, and what the last should come to."""
    steps = example.exercise.method.formula.steps if example.exercise.method else ()
    names = [f"gap_{step.name}" for step in steps]
    first, *rest = example.lines
    start = f"{first.words}: {first.text}" if rest else first.words
    words = (start, *(line.words for line in rest))
    gaps = [f"{name} = ...  # {each}" for name, each in zip(names, words, strict=True)]
    fill = FILL.format(
        names=", ".join(names) + ("" if rest else ","),
        last=names[-1],
        control=example.lines[-1].result.split(" = ")[-1],
    )
    return "\n".join((HOW, *gaps, fill))

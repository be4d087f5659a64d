"""Which outcome is taught where, practised at which bench tasks, and assessed by which question."""

import tomllib
from collections.abc import Iterator
from dataclasses import dataclass

from fuelmarks.course.course import Course
from fuelmarks.paper.lesson_plan import lesson

__all__ = ["Outcome", "outcomes_map"]


@dataclass(frozen=True)
class Outcome:
    """One line of the map."""

    code: str
    title: str
    taught: str
    """Number of the unit that teaches it: the first that asks for it."""
    tasks: int
    """Bench tasks of that unit that practise it, before the example with gaps."""
    assessed: tuple[str, ...]
    """Unit and exercise, over the whole course."""


def outcomes_map(course: Course) -> Iterator[Outcome]:
    """Yield every outcome of ``outcomes.toml``, in the order of the units that teach them."""
    known = tomllib.loads((course.root / "outcomes.toml").read_text(encoding="utf-8"))
    asked: dict[str, list[tuple[str, str]]] = {code: [] for code in known}
    for unit in course.units():
        for exercise in course.questions(unit):
            for code in set(exercise.outcomes) & set(asked):
                asked[code].append((unit, exercise.id))
    for code in sorted(known, key=lambda code: (asked[code][:1], list(known).index(code))):
        yield _outcome(course, code, known[code]["title"], asked[code])


def _outcome(course: Course, code: str, title: str, asked: list[tuple[str, str]]) -> Outcome:
    """Return one outcome; one that is asked nowhere has empty columns."""
    if not asked:
        return Outcome(code, title, "", 0, ())
    unit = asked[0][0]
    return Outcome(
        code,
        title,
        unit[:2],
        len(lesson(course, unit).tasks),
        tuple(f"{where[:2]} {name.replace('-', ' ')}" for where, name in asked),
    )

"""Where each outcome is taught, practised, assessed and observed, found in the course itself.

An outcome of knowing is taught by the unit that it names, or by the one whose questions ask for it
first, practised at that unit's bench tasks, and assessed wherever a question asks for it. One of
doing is taught and practised by the job sheets of the units it names, and assessed by work that is
watched.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.outcomes import Outcome, read_outcomes
from fuelmarks.paper.lesson_plan import Lesson, lesson
from fuelmarks.questions import Exercise
from fuelmarks.questions.frame.exercise import Form

__all__ = ["Mapped", "map_table", "outcomes_map"]

HEAD = (
    "code",
    "kind",
    "outcome",
    "own standard",
    "taught",
    "practised",
    "assessed",
    "asked by",
    "observed",
)

FORMS: Mapping[Form, str] = {
    "value": "sums and readings",
    "name": "names",
    "setting": "settings",
    "drive": "a drive",
}
"""What a question is answered by, in words."""


@dataclass(frozen=True)
class Mapped:
    """One line of the map; unit numbers as text, such as ``05``."""

    outcome: Outcome
    taught: str
    """The unit that teaches it; nothing if none does."""
    tasks: int
    """Tasks at that unit's benches."""
    assessed: tuple[str, ...]
    """Unit and question, over the whole course."""
    forms: tuple[str, ...] = ()
    """What those questions are answered by, in words."""
    sheets: tuple[str, ...] = ()
    """The units whose job sheets give occasion to watch it."""

    @property
    def code(self) -> str:
        """Return the outcome's code."""
        return self.outcome.code

    @property
    def title(self) -> str:
        """Return what the outcome says."""
        return self.outcome.title

    @property
    def units(self) -> tuple[str, ...]:
        """Return the units that assess it, each once."""
        return tuple(dict.fromkeys(one.partition(" ")[0] for one in self.assessed))

    @property
    def practised(self) -> str:
        """Return where it is practised, in words."""
        if self.outcome.watched:
            return f"job sheets {', '.join(self.sheets)}" if self.sheets else ""
        return f"tasks 1 to {self.tasks}, gaps" if self.tasks else ""

    @property
    def observed(self) -> str:
        """Return how it is observed, in words; nothing for an outcome of knowing."""
        return "watched, and entered by fuelmarks observe" if self.outcome.watched else ""


def outcomes_map(course: Course) -> Iterator[Mapped]:
    """Yield every outcome of ``outcomes.toml``, in the order of the units that teach them.

    Those of doing come last, and before them those that no unit teaches.

    Raises `CourseError` if an outcome names a unit that is none, or that has no job sheet.
    """
    known, plans = read_outcomes(course), {unit: lesson(course, unit) for unit in course.units()}
    asked: dict[str, list[tuple[str, Exercise]]] = {code: [] for code in known}
    for unit in plans:
        for exercise in course.questions(unit):
            for code in set(exercise.outcomes) & set(asked):
                asked[code].append((unit, exercise))
    lines = [_mapped(course, one, asked[code], plans) for code, one in known.items()]
    yield from sorted(lines, key=lambda one: (one.outcome.watched, not one.taught, one.taught))


def map_table(lines: Iterable[Mapped]) -> list[list[str]]:
    """Return the map as rows of a table, below a row of headings."""
    rows = [
        [
            *(one.code, one.outcome.kind, one.title, one.outcome.standard, one.taught),
            *(one.practised, ", ".join(one.assessed), ", ".join(one.forms), one.observed),
        ]
        for one in lines
    ]
    return [list(HEAD), *rows]


def _mapped(
    course: Course,
    outcome: Outcome,
    asked: list[tuple[str, Exercise]],
    plans: Mapping[str, Lesson],
) -> Mapped:
    """Return the line of one outcome; one that is asked nowhere has empty columns."""
    for unit in outcome.jobs:
        if unit not in plans or not plans[unit].tools:
            rule = f"jobs of {outcome.code} must be units with a job sheet"
            raise CourseError(f"{course.root / 'outcomes.toml'}: {rule}, got {unit!r}")
    sheets = tuple(unit[:2] for unit in outcome.jobs)
    assessed = tuple(f"{unit[:2]} {one.id.replace('-', ' ')}" for unit, one in asked)
    forms = tuple(dict.fromkeys(FORMS[one.form] for _, one in asked))
    if outcome.watched:
        return Mapped(outcome, sheets[0] if sheets else "", 0, assessed, forms, sheets)
    unit = outcome.taught or (asked[0][0] if asked else "")
    if unit and unit not in plans:
        rule = f"taught of {outcome.code} must be a unit of the course"
        raise CourseError(f"{course.root / 'outcomes.toml'}: {rule}, got {unit!r}")
    return Mapped(outcome, unit[:2], len(plans[unit].tasks) if unit else 0, assessed, forms)

"""How fast a class works: ``[pace]`` in ``term_plan.toml``, for each class to set by its watch."""

from collections.abc import Mapping
from dataclasses import dataclass, fields
from typing import Any

from fuelmarks.course.course import CourseError

__all__ = ["NAME", "Pace", "pace_from"]

NAME = "pace"
LEAST, MOST = 0.1, 600.0


@dataclass(frozen=True)
class Pace:
    """Minutes for each kind of work, but `reading`, which is words a minute.

    `look` is for each number of a drawing in a text, `move` for each sentence of a task, `drive`
    what watching or driving a car takes on top, `follow` for each step of a sum that is worked
    out, `gap` for each step with a gap, `step` for each step of one's own; `predict` to choose and
    write down, `choose` to choose from a list, `prove` to find the readings that prove it,
    `find` to find a fault, `setting` to set a bench, `written` to write a letter; `lesson` is a
    double lesson.
    """

    reading: float = 100.0
    predict: float = 1.5
    demonstration: float = 10.0
    look: float = 0.5
    move: float = 1.5
    drive: float = 5.0
    follow: float = 0.5
    gap: float = 1.0
    step: float = 2.0
    choose: float = 2.0
    prove: float = 5.0
    find: float = 10.0
    setting: float = 6.0
    written: float = 15.0
    lesson: float = 90.0

    def text(self, words: str) -> float:
        """Return the minutes it takes to read `words`."""
        return sum(any(map(str.isalnum, one)) for one in words.split()) / self.reading


def pace_from(entry: Mapping[str, Any], where: str) -> Pace:
    """Return the pace that a table gives; what it leaves out stays as it is here.

    Raises `CourseError` for an entry that is none, or a number out of range.
    """
    known = tuple(one.name for one in fields(Pace))
    for name, value in entry.items():
        if name not in known:
            raise CourseError(f"{where}: pace must be of {', '.join(known)}, got {name!r}")
        if type(value) not in (int, float) or not LEAST <= value <= MOST:
            rule = f"{name} must be between {LEAST:g} and {MOST:g}"
            raise CourseError(f"{where}: {rule}, got {value!r}")
    return Pace(**{name: float(value) for name, value in entry.items()})

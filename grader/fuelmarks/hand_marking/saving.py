"""Enter what was ticked on the page, after everything that a browser sends has been checked."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from fuelmarks.course.at_work import at_work
from fuelmarks.course.course import Course, CourseError
from fuelmarks.gradebook.book import Ledger
from fuelmarks.gradebook.given import Given, Tick
from fuelmarks.gradebook.standing import standings
from fuelmarks.hand_marking.question import Question

__all__ = ["Saved", "save"]

LONGEST = 5000


@dataclass(frozen=True)
class Saved:
    """What an answer has earned now."""

    trainee: str
    points: float


def save(course: Course, question: Question, sent: Any) -> Saved:
    """Enter the ticks and the comment in `sent`: trainee, digest, ticks, comment.

    Raises `CourseError` if something in it is not as it must be, or the answer is another by now.
    """
    held = _held(sent, len(question.rubric))
    trainee = held["trainee"]
    if trainee not in standings(course, question.unit, question.grade_id):
        raise CourseError(f"trainee must have an answer here, got {trainee!r}")
    ticks = tuple(
        Tick(item.points, item.words, ticked)
        for item, ticked in zip(question.rubric, held["ticks"], strict=True)
    )
    points = min(question.out_of, sum(one.points for one in ticks if one.ticked))
    given = Given("page", points, datetime.now(UTC), ticks)
    with at_work(course.root, "marking by hand"), Ledger(course, question.unit) as ledger:
        ledger.give(trainee, question.grade_id, given, held["comment"].strip(), held["digest"])
    return Saved(trainee, points)


def _held(sent: Any, items: int) -> Mapping[str, Any]:
    """Return what was sent, every part of the kind it must be."""
    kinds = {"trainee": str, "digest": str, "comment": str, "ticks": list}
    if not isinstance(sent, dict) or sent.keys() != kinds.keys():
        raise CourseError(f"a mark must have {', '.join(kinds)}, got something else")
    for name, kind in kinds.items():
        if not isinstance(sent[name], kind) or len(sent[name]) > LONGEST:
            raise CourseError(f"{name} of a mark must be a {kind.__name__}, got something else")
    ticks = sent["ticks"]
    if len(ticks) != items or not all(isinstance(one, bool) for one in ticks):
        raise CourseError(f"ticks must be {items}, each true or false, got {len(ticks)}")
    return sent

"""What a trainee can do afterwards: the outcomes that the questions of the course serve."""

import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from fuelmarks.course.course import Course, CourseError

__all__ = ["Outcome", "in_order", "read_outcomes"]


@dataclass(frozen=True)
class Outcome:
    """Something a trainee can do afterwards."""

    code: str
    title: str


def read_outcomes(course: Course) -> dict[str, Outcome]:
    """Return the outcomes of the course by code; a course need not have any."""
    path = course.root / "outcomes.toml"
    try:
        read = tomllib.loads(path.read_text(encoding="utf-8")) if path.exists() else {}
    except tomllib.TOMLDecodeError as error:
        raise CourseError(f"{path} must be TOML, got: {error}") from error
    return {code: Outcome(code, str(entry.get("title", code))) for code, entry in read.items()}


def in_order(codes: Iterable[str], outcomes: Mapping[str, Outcome]) -> list[Outcome]:
    """Return the outcomes with these codes in the order of the list, strangers last."""
    wanted = set(codes)
    known = [outcomes[code] for code in outcomes if code in wanted]
    return known + [Outcome(code, code) for code in sorted(wanted - set(outcomes))]

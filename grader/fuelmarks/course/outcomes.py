"""What a trainee can do afterwards: the outcomes that the questions and the job sheets serve.

An outcome of knowing is shown by answers. One of doing is shown by work that somebody has watched,
and by nothing else; `jobs` are the units whose job sheets give occasion for it. `taught` names the
unit that teaches it, where that is not the one that asks for it first. `standard` is free for the
words or the number of a college's own standard.
"""

import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, Literal, TypeAlias

from fuelmarks.course.course import Course, CourseError

__all__ = ["KINDS", "Kind", "Outcome", "in_order", "read_outcomes"]

Kind: TypeAlias = Literal["knowing", "doing"]
KINDS: tuple[Kind, ...] = ("knowing", "doing")
ENTRIES = ("title", "description", "kind", "jobs", "taught", "standard")


@dataclass(frozen=True)
class Outcome:
    """Something a trainee can do afterwards."""

    code: str
    title: str
    kind: Kind = "knowing"
    jobs: tuple[str, ...] = ()
    standard: str = ""
    taught: str = ""

    @property
    def watched(self) -> bool:
        """Say whether only work that was watched shows it."""
        return self.kind == "doing"


def read_outcomes(course: Course) -> dict[str, Outcome]:
    """Return the outcomes of the course by code; a course need not have any.

    Raises `CourseError` that names file, outcome, rule and value if the list cannot be used.
    """
    path = course.root / "outcomes.toml"
    try:
        read = tomllib.loads(path.read_text(encoding="utf-8")) if path.exists() else {}
    except tomllib.TOMLDecodeError as error:
        raise CourseError(f"{path} must be TOML, got: {error}") from error
    return {code: _outcome(f"{path}: {code}", code, entry) for code, entry in read.items()}


def in_order(codes: Iterable[str], outcomes: Mapping[str, Outcome]) -> list[Outcome]:
    """Return the outcomes with these codes in the order of the list, strangers last."""
    wanted = set(codes)
    known = [outcomes[code] for code in outcomes if code in wanted]
    return known + [Outcome(code, code) for code in sorted(wanted - set(outcomes))]


def _outcome(where: str, code: str, entry: Any) -> Outcome:
    """Return one outcome, everything checked."""
    if not isinstance(entry, Mapping):
        raise CourseError(f"{where} must be a table, got {entry!r}")
    if strange := [name for name in entry if name not in ENTRIES]:
        raise CourseError(f"{where} must have entries {', '.join(ENTRIES)}, got {strange[0]}")
    kind, jobs = entry.get("kind", KINDS[0]), entry.get("jobs", [])
    if kind not in KINDS:
        raise CourseError(f"{where}: kind must be one of {', '.join(KINDS)}, got {kind!r}")
    if not isinstance(jobs, list) or not all(isinstance(one, str) for one in jobs):
        raise CourseError(f"{where}: jobs must be a list of units, got {jobs!r}")
    title, *words = (str(entry.get(name, "")) for name in ("title", "standard", "taught"))
    return Outcome(code, title or code, kind, tuple(jobs), *words)

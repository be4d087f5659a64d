"""The directives in a unit's text: found with their line, before jupytext reads the rest.

A directive opens with ``:::{kind} name option=value`` on a line of its own and ends at ``:::``.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import count
from pathlib import Path

from fuelmarks.course.course import CourseError

__all__ = ["EXAMPLES", "Directive", "split"]

OPEN = re.compile(r":::\s*\{(?P<kind>[^}]*)\}\s*(?P<rest>.*)")
FENCE = re.compile(r"(```+|~~~+)")
FENCED = re.compile(r"(?:```+|~~~+)\s*\{(?!code-cell\})(?P<kind>[^}]*)\}")
NAMED = {
    "begin": False,
    "exercise": True,
    "written": True,
    "predict": True,
    "section": True,
    "worked": True,
    "gaps": True,
}
OPTIONS: dict[str, set[str]] = {
    "begin": {"rig"},
    "exercise": set(),
    "written": {"points"},
    "predict": set(),
    "section": {"rig"},
    "worked": set(),
    "gaps": set(),
}
EXAMPLES = ("worked", "gaps")
"""Directives that bear the name of the question they prepare."""
NAME = re.compile(r"[a-z][a-z0-9-]{0,40}")


@dataclass(frozen=True)
class Directive:
    """One directive: what it is, what it is called, its options and the text inside."""

    kind: str
    name: str
    body: str
    path: Path
    line: int
    options: dict[str, str] = field(default_factory=dict)

    def refuse(self, rule: str, value: object) -> CourseError:
        """Return the error that says where in the text which rule was broken by what."""
        return CourseError(f"{self.path}, line {self.line}: {rule}, got {value!r}")

    @property
    def label(self) -> str:
        """Return the name under which it stands once in a unit; an example is no question."""
        return f"{self.kind} {self.name}" if self.kind in EXAMPLES else self.name

    def points(self) -> int:
        """Return the option ``points``; raise `CourseError` if it is not a whole number."""
        text = self.options.get("points", "")
        if not text.isdecimal() or not 1 <= int(text) <= 100:
            raise self.refuse(f"points of {self.name} must be between 1 and 100", text)
        return int(text)


def split(text: str, path: Path) -> Iterator[str | Directive]:
    """Yield the text of a unit in order: plain MyST between directives, and the directives."""
    lines = text.splitlines()
    plain: list[str] = []
    at, fence = 0, ""
    while at < len(lines):
        fence = _fence(lines[at], fence)
        if alien := FENCED.match(lines[at]):
            rule = "a fence must be plain code or {code-cell}"
            raise CourseError(f"{path}, line {at + 1}: {rule}, got {alien['kind']!r}")
        opening = None if fence else OPEN.fullmatch(lines[at].strip())
        if opening is None:
            plain.append(lines[at])
            at += 1
            continue
        yield "\n".join(plain)
        plain = []
        end = next((n for n in count(at + 1) if n >= len(lines) or lines[n].strip() == ":::"), 0)
        directive = _directive(opening, path, at + 1, "\n".join(lines[at + 1 : end]).strip())
        if end >= len(lines):
            raise directive.refuse(f"{directive.kind} must end with a line :::", "end of file")
        if inner := re.search(r"^:::.*", directive.body, re.M):
            raise directive.refuse(f"{directive.kind} must end before the next begins", inner[0])
        yield directive
        at = end + 1
    yield "\n".join(plain)


def _fence(line: str, fence: str) -> str:
    """Return the code fence that is open after `line`, or nothing."""
    mark = FENCE.match(line)
    if not mark:
        return fence
    if not fence:
        return mark[1]
    return "" if line.rstrip() == mark[1] and mark[1].startswith(fence) else fence


def _directive(opening: re.Match[str], path: Path, line: int, body: str) -> Directive:
    """Return the checked directive that `opening` begins."""
    words = opening["rest"].split()
    pairs = [word.partition("=") for word in words if "=" in word]
    names = [word for word in words if "=" not in word]
    found = Directive(
        kind=opening["kind"],
        name=" ".join(names),
        body=body,
        path=path,
        line=line,
        options={key: value for key, _, value in pairs},
    )
    if found.kind not in NAMED:
        raise found.refuse(f"directive must be one of {', '.join(NAMED)}", found.kind)
    if NAMED[found.kind] and not NAME.fullmatch(found.name):
        raise found.refuse(f"{found.kind} must have one name such as needle-force", found.name)
    if strange := set(found.options) - OPTIONS[found.kind]:
        raise found.refuse(f"{found.kind} must have no other options", sorted(strange)[0])
    return found

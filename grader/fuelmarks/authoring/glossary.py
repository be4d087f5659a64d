"""The course's words: read from ``glossary.toml``, made into a page with links to the units."""

import tomllib
from dataclasses import dataclass
from pathlib import Path

from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.templates import templates

__all__ = ["Term", "glossary_page", "terms", "write_glossary"]


@dataclass(frozen=True)
class Term:
    """A word of the trade, what it means, and the unit that explains it."""

    name: str
    means: str
    unit: str  # 02-float-bowl, or the bare number where no such unit is there yet
    manual: str = ""
    """What a maker's manual may call it."""

    @property
    def told(self) -> str:
        """Return what it means, and what a manual may call it."""
        return f"{self.means} The manual may say: {self.manual}." if self.manual else self.means

    @property
    def anchor(self) -> str:
        """Return the name by which the page can be linked to at this term."""
        return "-".join(self.name.lower().split())


def terms(course: Course) -> tuple[Term, ...]:
    """Return the glossary in the order of the alphabet; raise `CourseError` if it is not usable."""
    path = course.root / "glossary.toml"
    try:
        read = tomllib.loads(path.read_text(encoding="utf-8"))
    except (OSError, tomllib.TOMLDecodeError) as error:
        raise CourseError(f"glossary must be a file of TOML, got {path}: {error}") from error
    units = {unit[:2]: unit for unit in course.units()}
    found = [_term(name, entry, units, path) for name, entry in read.items()]
    return tuple(sorted(found, key=lambda term: term.name.lower()))


def _term(name: str, entry: object, units: dict[str, str], path: Path) -> Term:
    """Return one entry, or raise `CourseError` naming it."""
    if not isinstance(entry, dict) or set(entry) - {"manual"} != {"unit", "means"}:
        raise CourseError(f"{path}: {name!r} must have unit and means, got {entry}")
    number, manual = str(entry["unit"]), str(entry.get("manual", ""))
    return Term(name, str(entry["means"]), units.get(number, number), manual)


def glossary_page(course: Course, units: str = "release") -> str:
    """Return the glossary as one page of HTML.

    `units` is the folder, seen from the page, that holds the units' notebooks.
    """
    return templates().get_template("glossary.html.j2").render(terms=terms(course), units=units)


def write_glossary(course: Course) -> Path:
    """Write the page into the course folder and return its path."""
    path = course.root / "glossary.html"
    path.write_text(glossary_page(course), encoding="utf-8")
    return path

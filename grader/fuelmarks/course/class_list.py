"""The class list: who is in the class, read by its headings, whatever their order.

Headings are known by several names; where two would do, the one that stands first here counts.
nbgrader's pages print a name as it stands, so a name that could act there is refused here.
"""

import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from fuelmarks.course.spreadsheet import Table, read_table

__all__ = ["COLUMNS", "SPECIMEN", "Trainee", "read_class"]

COLUMNS = ("id", "first name", "last name", "email")
SYNONYMS: Mapping[str, tuple[str, ...]] = {
    "id": (
        *("id", "trainee", "trainee id", "student", "student id", "student number", "id number"),
        *(
            "user name",
            "username",
            "user id",
            "login",
            "login id",
            "number",
            "matriculation number",
        ),
    ),
    "first name": ("first name", "firstname", "first", "given name", "given names", "forename"),
    "last name": (
        *("last name", "lastname", "last", "surname", "family name"),
        *("name", "full name", "trainee name", "student name"),
    ),
    "email": ("email", "e mail", "mail", "email address", "e mail address"),
    "group": ("group", "groups", "class", "section", "set", "shift", "cohort"),
}
TRAINEE = re.compile(r"[A-Za-z0-9][A-Za-z0-9_-]{0,60}")
SPECIMEN = "specimen"
"""Whose numbers a built notebook holds; no trainee can be called so."""
LONGEST = 200
ACTING = frozenset("<>&")
CONTROLS = ("Cc", "Cf", "Cs", "Zl", "Zp")
"""Unicode's categories of what turns text round, breaks it, or cannot be seen."""
JOINERS = frozenset("\u200c\u200d")
"""The two of them with which some scripts spell names."""


@dataclass(frozen=True)
class Trainee:
    """One line of the class list."""

    id: str
    first_name: str = ""
    last_name: str = ""
    email: str = ""
    group: str = ""

    @property
    def name(self) -> str:
        """Return the trainee's name, or the id where there is none."""
        return f"{self.first_name} {self.last_name}".strip() or self.id


def read_class(path: Path) -> tuple[Trainee, ...]:
    """Return the class in the list at `path`.

    Raises `CourseError` that names file, line, rule and value where the list is not usable.
    """
    table = read_table(path)
    if not table.rows:
        raise table.refuse(1, f"the headings must be {', '.join(COLUMNS)}", "nothing")
    places = _places(table)
    found: dict[str, Trainee] = {}
    for line, row in table.body():
        trainee = _trainee(table, line, row, places)
        if trainee.id.lower() in found:
            raise table.refuse(line, "id must be used once", trainee.id)
        found[trainee.id.lower()] = trainee
    return tuple(found.values())


def _places(table: Table) -> dict[str, int]:
    """Return in which column each thing we want to know stands; the plainest heading is taken."""
    line, head = table.rows[0]
    plain = [" ".join(re.findall(r"[a-z]+", heading.lower())) for heading in head]
    places: dict[str, int] = {}
    for column, known in SYNONYMS.items():
        heading = next((one for one in known if one in plain), None)
        if heading is None:
            continue
        if plain.count(heading) > 1:
            raise table.refuse(line, f"one column alone must hold the {column}", ", ".join(head))
        places[column] = plain.index(heading)
    if "id" not in places:
        raise table.refuse(line, f"the headings must be {', '.join(COLUMNS)}", ", ".join(head))
    return places


def _trainee(table: Table, line: int, row: tuple[str, ...], places: Mapping[str, int]) -> Trainee:
    """Return the trainee in one row, everything checked."""
    cells = {name: row[at] if at < len(row) else "" for name, at in places.items()}
    if not TRAINEE.fullmatch(cells["id"]):
        raise table.refuse(line, "id must be letters, digits, - and _", cells["id"])
    if cells["id"].lower() == SPECIMEN:
        raise table.refuse(line, f"id must not be {SPECIMEN}, which names no trainee", cells["id"])
    for name, value in cells.items():
        _check(table, line, name, value)
    return Trainee(*(cells.get(name, "") for name in (*COLUMNS, "group")))


def _check(table: Table, line: int, name: str, value: str) -> None:
    """Raise `CourseError` if `value` could act on a page, turn its text round, or hide in it."""
    if len(value) > LONGEST:
        raise table.refuse(
            line, f"{name} must have {LONGEST} characters or fewer", value[:40] + "…"
        )
    for sign in value:
        if sign in ACTING:
            raise table.refuse(line, f"{name} must hold no <, > or &", value)
        if unicodedata.category(sign) in CONTROLS and sign not in JOINERS:
            rule = f"{name} must hold no control character such as U+{ord(sign):04X}"
            raise table.refuse(line, rule, value)

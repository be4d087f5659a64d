"""A course folder: where things lie, who is in the class, and the key of the term.

units/NN-slug/unit.md               what people write
source/ release/                    what the build makes
class.csv                           id, first name, last name, email
term.toml                           the key from which the trainees' numbers are drawn
handout/ submitted/ autograded/     one folder a trainee, one a unit below it
reports/ gradebook.db               what marking makes
"""

import csv
import re
import secrets
import tomllib
from dataclasses import dataclass
from pathlib import Path

from fuelcircuits.errors import CircuitError

__all__ = ["Course", "CourseError", "Trainee"]

UNIT = re.compile(r"\d\d-[a-z][a-z0-9-]{0,60}")
TRAINEE = re.compile(r"[A-Za-z0-9][A-Za-z0-9_-]{0,60}")
COLUMNS = ("id", "first name", "last name", "email")


class CourseError(CircuitError, ValueError):
    """Something in the course folder cannot be used; the message names it, the rule, the value."""


@dataclass(frozen=True)
class Trainee:
    """One line of the class list."""

    id: str
    first_name: str = ""
    last_name: str = ""
    email: str = ""

    @property
    def name(self) -> str:
        """Return the trainee's name, or the id where there is none."""
        return f"{self.first_name} {self.last_name}".strip() or self.id


@dataclass(frozen=True)
class Course:
    """The folder of one course."""

    root: Path

    @classmethod
    def at(cls, folder: Path) -> "Course":
        """Return the course in `folder`; raise `CourseError` if none is there."""
        if not (folder / "units").is_dir():
            raise CourseError(f"course folder must hold a folder units, got {folder}")
        return cls(folder.resolve())

    def units(self) -> tuple[str, ...]:
        """Return the names of all units, in order."""
        texts = self.root.glob("units/*/unit.md")
        return tuple(sorted(text.parent.name for text in texts if UNIT.fullmatch(text.parent.name)))

    def text(self, unit: str) -> Path:
        """Return the path of the text of `unit`; raise `CourseError` if there is no such unit."""
        if unit not in self.units():
            raise CourseError(f"unit must be one of {', '.join(self.units())}, got {unit!r}")
        return self.root / "units" / unit / "unit.md"

    def folder(self, step: str, unit: str, trainee: str = ".") -> Path:
        """Return the folder of `unit` at a step: source, release, handout, submitted, …."""
        return self.root / step / trainee / unit

    def notebook(self, step: str, unit: str, trainee: str = ".") -> Path:
        """Return the path of the notebook of `unit` at a step."""
        return self.folder(step, unit, trainee) / f"{unit}.ipynb"

    @property
    def gradebook(self) -> str:
        """Return the address of nbgrader's database."""
        return f"sqlite:///{self.root / 'gradebook.db'}"

    def trainees(self) -> tuple[Trainee, ...]:
        """Return the class; raise `CourseError` naming file and line if the list is not usable."""
        path = self.root / "class.csv"
        if not path.exists():
            raise CourseError(f"class list must exist, got no file {path}")
        with path.open(newline="", encoding="utf-8-sig") as lines:
            rows = list(csv.reader(lines))
        if not rows or tuple(cell.strip() for cell in rows[0])[:1] != ("id",):
            raise CourseError(f"{path}, line 1: must be {', '.join(COLUMNS)}, got {rows[:1]}")
        return _class(path, rows)

    @property
    def key(self) -> str:
        """Return the term's key; the first time it is asked for, one is made and kept."""
        path = self.root / "term.toml"
        if not path.exists():
            path.write_text(
                "# Draws the trainees' numbers. Keep it to yourself, and keep it all term.\n"
                f'key = "{secrets.token_hex(16)}"\n'
            )
        try:
            key = tomllib.loads(path.read_text(encoding="utf-8")).get("key")
        except tomllib.TOMLDecodeError as error:
            raise CourseError(f"{path} must be TOML, got: {error}") from error
        if not isinstance(key, str) or len(key) < 8:
            raise CourseError(f"{path}: key must be text of 8 characters or more, got {key!r}")
        return key


def _class(path: Path, rows: list[list[str]]) -> tuple[Trainee, ...]:
    """Return the trainees in `rows`, each checked."""
    found: dict[str, Trainee] = {}
    for number, row in enumerate(rows[1:], start=2):
        if not any(cell.strip() for cell in row):
            continue
        trainee = Trainee(*(cell.strip() for cell in row[: len(COLUMNS)]))
        if not TRAINEE.fullmatch(trainee.id):
            raise CourseError(
                f"{path}, line {number}: id must be letters, digits, - and _, got {trainee.id!r}"
            )
        if trainee.id in found:
            raise CourseError(f"{path}, line {number}: id must be used once, got {trainee.id!r}")
        found[trainee.id] = trainee
    return tuple(found.values())

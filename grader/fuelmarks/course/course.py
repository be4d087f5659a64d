"""A course folder: where things lie, who is in the class, and the key of the term.

units/NN-slug/unit.md               what people write
units/NN-slug/questions.toml        questions of one's own, and changes to those of the package
drawn/NN-slug.toml                  that file as it was at the first hand-out
source/ release/                    what the build makes
class.csv                           id, first name, last name, email
term.toml                           the term's key, due dates, the rule on lateness
handout/ submitted/ autograded/     one folder a trainee, one a unit below it
submitted/ID/attempts/UNIT/001/     every attempt of a trainee, as it was handed in
reports/ gradebook.db               what marking makes
"""

import re
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from fuelmarks.course.class_list import Trainee, read_class
from fuelmarks.course.error import CourseError
from fuelmarks.course.term import Term, gradebook_of, read_term, term_key

if TYPE_CHECKING:
    from fuelmarks.questions import ExerciseSet

__all__ = ["Course", "CourseError", "Trainee"]

UNIT = re.compile(r"\d\d-[a-z][a-z0-9-]{0,60}")


@dataclass(frozen=True)
class Course:
    """The folder of one course."""

    root: Path
    other_gradebook: str = ""
    """The address of a gradebook in the place of the one that term.toml names."""

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

    def questions(self, unit: str) -> "ExerciseSet":
        """Return the questions of `unit`, with what the file beside its text adds and changes."""
        from fuelmarks.course.unit_questions import unit_questions  # noqa: PLC0415 - slow to load

        return unit_questions(self.root, unit)

    def folder(self, step: str, unit: str, trainee: str = ".") -> Path:
        """Return the folder of `unit` at a step: source, release, handout, submitted, …."""
        return self.root / step / trainee / unit

    def notebook(self, step: str, unit: str, trainee: str = ".") -> Path:
        """Return the path of the notebook of `unit` at a step."""
        return self.folder(step, unit, trainee) / f"{unit}.ipynb"

    @property
    def gradebook(self) -> str:
        """Return the address of the gradebook: a file here, unless term.toml names another."""
        return self.other_gradebook or gradebook_of(self.root)

    @property
    def has_gradebook(self) -> bool:
        """Say whether there may be a gradebook: a file can be looked for, a server is asked."""
        kind, _, path = self.gradebook.partition(":///")
        return kind != "sqlite" or Path(path).exists()

    def trainees(self) -> tuple[Trainee, ...]:
        """Return the class; raise `CourseError` naming file and line if the list is not usable."""
        return read_class(self.root / "class.csv")

    @property
    def term(self) -> Term:
        """Return what term.toml says; raise `CourseError` if it names a unit that is none."""
        term, path = read_term(self.root), self.root / "term.toml"
        named = [(unit, f"due {unit}") for unit in term.due]
        named += [(unit, f"worked {unit}") for unit in sorted(term.worked)]
        named += [(unit, f"exam {unit}") for unit in term.exams]
        for unit, key in named:
            if unit not in self.units():
                rule = f"unit must be one of {', '.join(self.units())}"
                raise CourseError(f"{path}: {key}: {rule}, got {unit!r}")
        return term

    def strangers(self) -> tuple[str, ...]:
        """Return a sentence for each trainee with a time of his own who is not in the class."""
        known, term = {one.id for one in self.trainees()}, self.term
        own = [(f"due {trainee}", trainee) for trainee, _ in term.own_due]
        own += [(f"exam {unit}", one) for unit, exam in term.exams.items() for one in exam.longer]
        return tuple(
            f"{self.root / 'term.toml'}: {where}: trainee must be in class.csv, got {one!r}; "
            "the time is for nobody"
            for where, one in dict.fromkeys(own)
            if one not in known
        )

    @property
    def key(self) -> str:
        """Return the term's key; before anything was handed out, one is made and kept."""
        return term_key(self.root)

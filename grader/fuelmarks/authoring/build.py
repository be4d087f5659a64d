"""Build a unit: its text becomes nbgrader's source notebook, and nbgrader makes the release.

Building twice gives the same bytes: ids come from names and text, nothing from a clock or dice.
"""

import hashlib
import re
import shutil
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import jupytext
from nbgrader.converters import GenerateAssignment, NbGraderException
from nbgrader.coursedir import CourseDirectory

from fuelmarks.course.cells import begin_cells, exercise_cells, predict_cells, written_cells
from fuelmarks.course.class_list import SPECIMEN
from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.directives import Directive, split
from fuelmarks.course.notebook import KERNEL, NotebookNode, new_cell, notebook, write
from fuelmarks.course.personal import study_seed
from fuelmarks.gradebook.opening import new_gradebook
from fuelmarks.gradebook.settings import complaints, settings
from fuelmarks.questions import ExerciseSet, Sheet, draw

__all__ = ["SPECIMEN", "build", "source_notebook", "specimen_sheet"]

UNNAMED = "unnamed"


def build(course: Course, unit: str) -> Path:
    """Build `unit` from its text and return the path of the release notebook.

    Raises `CourseError` naming file, line, rule and value where the text is wrong.
    """
    text = course.text(unit)
    folder = course.folder("source", unit)
    made = source_notebook(text, course.questions(unit), course.root / "rigs")
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True)
    for figure in _beside(text):
        shutil.copyfile(figure, folder / figure.name)
    write(made, folder / f"{unit}.ipynb")
    _release(course, unit)
    return course.notebook("release", unit)


def source_notebook(text: Path, exercise_set: ExerciseSet, rigs: Path) -> NotebookNode:
    """Return the instructor's notebook of the unit whose text is at `text`.

    `rigs` is the folder of spec cards; the card named in ``:::{begin}`` goes into the notebook.
    """
    sheet = specimen_sheet(exercise_set)
    written = text.read_text(encoding="utf-8")
    seen: dict[str, Directive] = {}
    cells: list[NotebookNode] = []
    for part in split(re.sub(r"\A---\n.*?\n---\n", _blank, written, flags=re.S), text):
        if isinstance(part, str):
            cells += _plain(part, exercise_set.unit)
            continue
        if part.name in seen:
            earlier = seen[part.name].line
            raise part.refuse(f"name must be used once, is on line {earlier}", part.name)
        seen[part.name] = part
        cells += _expand(part, exercise_set, sheet, rigs)
    _all_there(text, exercise_set, seen)
    own = {"fuelcircuits": {"rig": _rig(seen[""], rigs)}}
    return notebook(_with_steady_ids(cells, exercise_set.unit), {**KERNEL, **own})


def specimen_sheet(exercise_set: ExerciseSet, trainee: str = SPECIMEN) -> Sheet:
    """Return the numbers of the release notebook, which a self-learner works with."""
    return draw(exercise_set, study_seed(trainee, exercise_set))


def _blank(head: re.Match[str]) -> str:
    """Return as many empty lines as `head` has, so that line numbers stay."""
    return "\n" * head[0].count("\n")


def _plain(text: str, unit: str) -> Iterator[NotebookNode]:
    """Yield the cells of MyST text without directives."""
    for cell in jupytext.reads(text.strip(), fmt="md:myst").cells:
        if cell.source.strip():
            yield new_cell(cell.cell_type, cell.source, name=UNNAMED)


def _with_steady_ids(cells: list[NotebookNode], unit: str) -> list[NotebookNode]:
    """Return `cells`, those without an id named after what they say."""
    said: Counter[str] = Counter()
    for cell in cells:
        if cell.id == UNNAMED:
            text = f"{cell.cell_type}\n{cell.source}"
            digest = hashlib.sha256(f"{text}\n{said[text]}".encode()).hexdigest()
            cell.id = f"{unit[:2]}-{digest[:12]}"
            said[text] += 1
    return cells


def _rig(begin: Directive, rigs: Path) -> str:
    """Return the name of the rig a unit works with: the one named, plover, or none."""
    known = sorted(card.stem for card in rigs.glob("*.toml"))
    name = begin.options.get("rig", "plover" if "plover" in known else "")
    if name and name not in known:
        raise begin.refuse(f"rig must be one of {', '.join(known)}", name)
    return name


def _expand(
    directive: Directive, exercise_set: ExerciseSet, sheet: Sheet, rigs: Path
) -> list[NotebookNode]:
    """Return the cells that `directive` stands for."""
    unit, name, body = exercise_set.unit, directive.name, directive.body
    if directive.kind == "begin":
        rig = _rig(directive, rigs)
        card = (rigs / f"{rig}.toml").read_text(encoding="utf-8").strip() if rig else ""
        return begin_cells(exercise_set, sheet, SPECIMEN, "study", rig=rig, card=card)
    if directive.kind == "exercise":
        known = [one.id for one in exercise_set]
        if name not in known:
            raise directive.refuse(f"exercise must be one of {', '.join(known)}", name)
        return exercise_cells(unit, exercise_set[name], sheet)
    if not body:
        raise directive.refuse(f"{directive.kind} must have text inside", body)
    if directive.kind == "written":
        return written_cells(unit, name, body, directive.points())
    return predict_cells(unit, name, body)


def _all_there(text: Path, exercise_set: ExerciseSet, seen: dict[str, Directive]) -> None:
    """Raise `CourseError` if the set-up cell or an exercise is not in the text."""
    if not any(one.kind == "begin" for one in seen.values()):
        raise CourseError(f"{text}: unit must have one :::{{begin}}, got none")
    for exercise in exercise_set:
        if exercise.id not in seen:
            raise CourseError(f"{text}: exercise must be asked in the text, got no {exercise.id!r}")
    order = [name for name, one in seen.items() if one.kind == "exercise"]
    if order != [one.id for one in exercise_set]:
        raise CourseError(f"{text}: exercises must stand in the order of their set, got {order}")


def _beside(text: Path) -> list[Path]:
    """Return the files beside a unit's text, such as figures."""
    return sorted(
        path
        for path in text.parent.iterdir()
        if path.is_file() and path != text and not path.name.startswith(".")
    )


def _release(course: Course, unit: str) -> None:
    """Let nbgrader make the release and enter the unit in the gradebook."""
    config = settings(course)
    directory = CourseDirectory(config=config, root=str(course.root), assignment_id=unit)
    new_gradebook(course)
    with complaints() as heard:
        try:
            GenerateAssignment(coursedir=directory, config=config, force=True).start()
        except NbGraderException as error:
            why = next((line for line in heard if "Error: " in line), str(error))
            raise CourseError(f"nbgrader must be able to release {unit}, got {why}") from error

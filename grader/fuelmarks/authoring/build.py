"""Build a unit: its text becomes nbgrader's source notebook, and nbgrader makes the release.

Building twice gives the same bytes: ids come from names and text, nothing from a clock or dice.
"""

import hashlib
import re
import shutil
from collections import Counter
from collections.abc import Iterator, Mapping
from pathlib import Path

import jupytext
from fuelcircuits.cards import read_card
from fuelcircuits.own_car.scaling import rig_named

from fuelmarks.authoring.release import release
from fuelmarks.course.cells import (
    RUBRIC,
    begin_cells,
    exercise_cells,
    written_cells,
)
from fuelmarks.course.class_list import SPECIMEN
from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.directives import EXAMPLES, Directive, split
from fuelmarks.course.examples import Example, example_of, gaps_code, gaps_text, worked_text
from fuelmarks.course.foretold import asked_of, key_to
from fuelmarks.course.notebook import KERNEL, NotebookNode, new_cell, notebook, write
from fuelmarks.course.personal import study_seed
from fuelmarks.course.prediction_cells import again_cells, predict_cells
from fuelmarks.course.sections import section_picture
from fuelmarks.course.unit_questions import BESIDE
from fuelmarks.course.unit_text import filled_text
from fuelmarks.questions import Adjustment, Exercise, ExerciseSet, Sheet, Written, draw

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
    release(course, unit, made)
    return course.notebook("release", unit)


def source_notebook(text: Path, exercise_set: ExerciseSet, rigs: Path) -> NotebookNode:
    """Return the instructor's notebook of the unit whose text is at `text`.

    `rigs` is the folder of spec cards; the card named in ``:::{begin}`` goes into the notebook.
    """
    sheet = specimen_sheet(exercise_set)
    seen: dict[str, Directive] = {}
    cells, last = _of_text(text, exercise_set, sheet, rigs, seen)
    cells[last:last] = _beside_the_text(exercise_set, sheet, seen)
    foretold = [asked_of(one) for one in seen.values() if one.kind == "predict"]
    cells += again_cells(exercise_set.unit, foretold)
    _all_there(text, exercise_set, seen)
    own = {"fuelcircuits": {"rig": _rig(seen[""], rigs)}}
    return notebook(_with_steady_ids(cells, exercise_set.unit), {**KERNEL, **own})


def _of_text(
    text: Path, exercise_set: ExerciseSet, sheet: Sheet, rigs: Path, seen: dict[str, Directive]
) -> tuple[list[NotebookNode], int]:
    """Return the cells of a unit's text, and the place after its last question.

    What it names is noted in `seen`. The set-up stands before whatever is handed over: where the
    text predicts before it begins, it is put in front of the first prediction.
    """
    written = filled_text(text, rigs)
    cells: list[NotebookNode] = []
    last, card = 0, ""
    predicted: int | None = None
    for part in split(re.sub(r"\A---\n.*?\n---\n", _blank, written, flags=re.S), text):
        if isinstance(part, str):
            cells += _plain(part, exercise_set.unit)
            continue
        if part.kind == "section":
            cells += _expand(part, exercise_set, sheet, rigs, card)
            continue
        if part.label in seen:
            earlier = seen[part.label].line
            raise part.refuse(f"name must be used once, is on line {earlier}", part.name)
        seen[part.label] = part
        card = _card(part, rigs) if part.kind == "begin" else card
        if part.kind == "predict" and predicted is None:
            predicted = len(cells)
        at = predicted if part.kind == "begin" and predicted is not None else len(cells)
        cells[at:at] = _expand(part, exercise_set, sheet, rigs, card)
        last = len(cells) if part.kind in ("exercise", "written") else last
    return cells, last


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


def _card(begin: Directive, rigs: Path) -> str:
    """Return the text of the card that a unit works with, or nothing."""
    rig = _rig(begin, rigs)
    return (rigs / f"{rig}.toml").read_text(encoding="utf-8").strip() if rig else ""


def _expand(
    directive: Directive, exercise_set: ExerciseSet, sheet: Sheet, rigs: Path, card: str
) -> list[NotebookNode]:
    """Return the cells that `directive` stands for; `card` is the text of the unit's card."""
    unit, name = exercise_set.unit, directive.name
    if directive.kind in ("section", *EXAMPLES):
        return list(_shown(directive, exercise_set, rigs))
    if directive.kind == "begin":
        rig = _rig(directive, rigs)
        return begin_cells(exercise_set, sheet, SPECIMEN, "study", rig=rig, card=card)
    if directive.kind == "exercise":
        known = [one.id for one in exercise_set]
        if name not in known:
            raise directive.refuse(f"exercise must be one of {', '.join(known)}", name)
        _check_bench(directive, exercise_set[name], card)
        return exercise_cells(unit, exercise_set[name], sheet, card)
    known_words = {one.id: one for one in exercise_set.written}
    if directive.kind == "written" and name in known_words:
        return _written(directive, exercise_set, known_words[name])
    return _asked_here(directive, exercise_set)


def _asked_here(directive: Directive, exercise_set: ExerciseSet) -> list[NotebookNode]:
    """Return the cells of what the text itself asks: in words, or as a prediction."""
    unit, name, body = exercise_set.unit, directive.name, directive.body
    if not body:
        raise directive.refuse(f"{directive.kind} must have text inside", body)
    if directive.kind == "written":
        void = exercise_set.void.get(name, "")
        return written_cells(unit, name, body, directive.points(), void)
    _check_key(directive, exercise_set)
    return predict_cells(unit, asked_of(directive))


def _check_bench(directive: Directive, asked: Exercise, card: str) -> None:
    """Raise `CourseError` if a bench that is set stands on another card than marking works with."""
    if isinstance(asked, Adjustment):
        own = read_card(card, "card.toml") if card else None
        if own != rig_named(asked.rig):
            rule = f"{asked.id} must stand in a unit with the card of {asked.rig} as it came"
            raise directive.refuse(rule, own.name if own else "no card")


def _check_key(directive: Directive, exercise_set: ExerciseSet) -> None:
    """Raise `CourseError` unless the key to a prediction names one of its answers."""
    key = key_to(exercise_set, directive.name)
    if key is None:
        rule = f"predict must have a key of its name, a [[prediction]] in {BESIDE}"
        raise directive.refuse(rule, f"none for {directive.name}")
    if key.right not in (options := asked_of(directive).options):
        rule = f"right of prediction {directive.name} must be one of {', '.join(options)}"
        raise directive.refuse(rule, key.right)


def _shown(directive: Directive, exercise_set: ExerciseSet, rigs: Path) -> Iterator[NotebookNode]:
    """Yield the cells of what asks for no answer: a drawing, or an example."""
    if directive.kind == "section":
        yield new_cell("markdown", section_picture(directive, rigs).image(), name=UNNAMED)
    else:
        yield from _example(example_of(directive, exercise_set), directive.kind)


def _example(example: Example, kind: str) -> Iterator[NotebookNode]:
    """Yield the cells of an example that is worked out, or has gaps."""
    text = worked_text(example) if kind == "worked" else gaps_text(example)
    yield new_cell("markdown", text, name=UNNAMED)
    if kind == "gaps":
        yield new_cell("code", gaps_code(example), name=UNNAMED)


def _written(directive: Directive, exercise_set: ExerciseSet, asked: Written) -> list[NotebookNode]:
    """Return the cells of a written question whose words stand beside the text."""
    if directive.body or directive.options:
        rule = f"{asked.id} must be empty here, since it stands in {BESIDE}"
        raise directive.refuse(rule, directive.body or directive.options)
    return _in_words(exercise_set, asked)


def _in_words(exercise_set: ExerciseSet, asked: Written) -> list[NotebookNode]:
    """Return the cells of a written question."""
    body = f"{asked.ask}\n\n{RUBRIC}\n{asked.rubric}"
    void = exercise_set.void.get(asked.id, "")
    return written_cells(exercise_set.unit, asked.id, body, asked.points, void)


def _beside_the_text(
    exercise_set: ExerciseSet, sheet: Sheet, seen: Mapping[str, Directive]
) -> Iterator[NotebookNode]:
    """Yield the cells of the questions beside the text that it gives no place; they come last."""
    unit = exercise_set.unit
    for exercise in exercise_set:
        if exercise.id in exercise_set.beside and exercise.id not in seen:
            yield from exercise_cells(unit, exercise, sheet)
    for one in exercise_set.written:
        if one.id not in seen:
            yield from _in_words(exercise_set, one)


def _all_there(text: Path, exercise_set: ExerciseSet, seen: dict[str, Directive]) -> None:
    """Raise `CourseError` if the set-up cell or an exercise is not in the text."""
    if not any(one.kind == "begin" for one in seen.values()):
        raise CourseError(f"{text}: unit must have one :::{{begin}}, got none")
    words = {name for name, one in seen.items() if one.kind == "written"}
    words |= {one.id for one in exercise_set.written}
    if strange := sorted(set(exercise_set.void) - words):
        raise CourseError(f"{text}: change must be of a question, got {strange[0]!r}")
    asked = [one.id for one in exercise_set if one.id in seen or one.id not in exercise_set.beside]
    for name in asked:
        if name not in seen:
            raise CourseError(f"{text}: exercise must be asked in the text, got no {name!r}")
    foretold = {one.name for one in seen.values() if one.kind == "predict"}
    if lost := [one.id for one in exercise_set.predictions if one.id not in foretold]:
        raise CourseError(f"{text}: prediction must be asked in the text, got no {lost[0]!r}")
    order = [name for name, one in seen.items() if one.kind == "exercise"]
    if order != asked:
        raise CourseError(f"{text}: exercises must stand in the order of their set, got {order}")


def _beside(text: Path) -> list[Path]:
    """Return the files beside a unit's text, such as figures."""
    return sorted(
        path
        for path in text.parent.iterdir()
        if path.is_file() and path.name not in (text.name, BESIDE) and path.name[0] != "."
    )

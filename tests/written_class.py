"""A class that has answered a written question, marked by machine, waiting for a hand."""

import shutil
from collections.abc import Mapping, Sequence
from pathlib import Path

from fuelmarks.authoring.build import build
from fuelmarks.classroom.hand_out import hand_out
from fuelmarks.classroom.mark_class import mark_class
from fuelmarks.course.course import Course
from fuelmarks.course.notebook import grade_id, read, write
from fuelmarks.runner import Runner

from tests.small_unit import TEXT, UNIT, new_course

__all__ = ["QUESTION", "RUBRIC", "answer", "mark", "written_class"]

QUESTION = "say-it"
RUBRIC = ("the level is a balance.", "the needle closes, with a number.", "why it smells.")
OLD_RUBRIC = "- 1 point: says it.\n"
NEW_RUBRIC = f"- 1 point: {RUBRIC[0]}\n- 2 points: {RUBRIC[1]}\n- 1 point: {RUBRIC[2]}\n"


def written_class(folder: Path, answers: Sequence[str]) -> Course:
    """Return a course whose trainees t001, t002 … have written `answers`; not yet marked."""
    course = new_course(folder, TEXT.replace(OLD_RUBRIC, NEW_RUBRIC), len(answers))
    build(course, UNIT)
    for handed, words in zip(hand_out(course, UNIT), answers, strict=True):
        shutil.copytree(handed.path.parent, course.folder("submitted", UNIT, handed.trainee))
        answer(course, handed.trainee, words)
    return course


def answer(
    course: Course, trainee: str, words: str, pasted: Mapping[str, Mapping[str, str]] | None = None
) -> None:
    """Write `words` as the answer in what a trainee has handed in."""
    path = course.notebook("submitted", UNIT, trainee)
    notebook = read(path)
    for cell in notebook.cells:
        if grade_id(cell) == f"90-{QUESTION}":
            cell.source = words
            if pasted:
                cell["attachments"] = pasted
    write(notebook, path)


def mark(course: Course, runner: Runner) -> list[str]:
    """Mark the class by machine; return what became of each."""
    return [done.state for done in mark_class(course, UNIT, runner=runner)]

"""An invented class with its submissions, in a folder of its own, marked in more than one way."""

import os
import shutil
import sqlite3
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from fuelmarks.authoring.build import build
from fuelmarks.classroom.collect import collect
from fuelmarks.classroom.hand_out import hand_out
from fuelmarks.course.class_list import COLUMNS
from fuelmarks.course.course import Course, Trainee
from fuelmarks.demo.invented_class import class_list, hand_in

from tests.places import TOP

__all__ = [
    "COMMENTS",
    "OWN_KERNELS",
    "ROWS",
    "UNIT",
    "class_list",
    "new_class",
    "own_jupyter",
    "rows",
    "twin",
    "work_comes_in",
]

UNIT = "02-float-bowl"
ENDLESS = ('"    pass"', '"    import time; time.sleep(9)"')
"""The work of an endless loop as it stands in a notebook, and what stands there instead."""
CHECKOUT = TOP

OWN_KERNELS = """
c.Autograde.autograde_preprocessors[0] = "nbgrader.preprocessors.Execute"
c.Execute.iopub_timeout = 60
"""
"""Settings with which nbgrader runs notebooks in kernels of its own, and we mark them."""

ROWS = """
    select trainee.student_id, cell.name, kept.auto_score, kept.manual_score,
           kept.needs_manual_grade, kept.extra_credit, points.max_score,
           sheet.late_submission_penalty
    from grade as kept
    join base_cell as cell on cell.id = kept.cell_id
    join grade_cells as points on points.id = cell.id
    join submitted_notebook as sheet on sheet.id = kept.notebook_id
    join submitted_assignment as trainee on trainee.id = sheet.assignment_id
    order by 1, 2
"""
COMMENTS = """
    select trainee.student_id, cell.name, note.auto_comment, note.manual_comment
    from comment as note
    join base_cell as cell on cell.id = note.cell_id
    join submitted_notebook as sheet on sheet.id = note.notebook_id
    join submitted_assignment as trainee on trainee.id = sheet.assignment_id
    order by 1, 2
"""


def new_class(folder: Path, trainees: Sequence[Trainee]) -> tuple[Course, dict[str, str]]:
    """Return a course with `trainees`' submissions, not yet marked, and everyone's habit."""
    for name in ("units", "rigs"):
        shutil.copytree(CHECKOUT / "course" / name, folder / name)
    shutil.copy(CHECKOUT / "course" / "nbgrader_config.py", folder)
    lines = [f"{one.id},{one.first_name},{one.last_name},{one.email}" for one in trainees]
    (folder / "class.csv").write_text("\n".join([",".join(COLUMNS), *lines]) + "\n")
    (folder / "term.toml").write_text('key = "a key for tests"\n')
    course = Course.at(folder)
    build(course, UNIT)
    list(hand_out(course, UNIT))
    return course, work_comes_in(course, UNIT)


def work_comes_in(course: Course, unit: str) -> dict[str, str]:
    """Have the invented class hand in, and collect it; return everyone's habit.

    Its endless loop waits: it is stopped like one that works, and keeps no processor busy.
    """
    returned = course.root / "returned"
    habits = dict(hand_in(course, unit, returned))
    for path in returned.iterdir():
        path.write_text(path.read_text("utf-8").replace(*ENDLESS), "utf-8")
    collect(course, unit, returned)
    return habits


def twin(course: Course, folder: Path, settings: str = "") -> Course:
    """Return a copy of `course` in `folder`, with lines added to its nbgrader_config.py."""
    shutil.copytree(course.root, folder)
    with (folder / "nbgrader_config.py").open("a") as file:
        file.write(settings)
    return Course.at(folder)


def rows(course: Course, question: str = ROWS) -> dict[tuple[str, str], tuple[Any, ...]]:
    """Return what the gradebook holds, by trainee and cell."""
    with sqlite3.connect(course.root / "gradebook.db") as book:
        return {(who, cell): tuple(rest) for who, cell, *rest in book.execute(question)}


def own_jupyter(folder: Path) -> Mapping[str, str]:
    """Return an environment in which Jupyter writes nothing outside `folder`."""
    names = ("IPYTHONDIR", "JUPYTER_CONFIG_DIR", "JUPYTER_DATA_DIR", "JUPYTER_RUNTIME_DIR")
    path = os.pathsep.join([str(Path(sys.executable).parent), os.environ["PATH"]])
    own = {name: str(folder / name.lower()) for name in (*names, "MPLCONFIGDIR")}
    return {**os.environ, **own, "PATH": path, "JUPYTER_PLATFORM_DIRS": "1"}

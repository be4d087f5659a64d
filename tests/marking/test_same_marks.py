"""The same marks, whoever runs the notebooks: nbgrader's own kernels, our runner, our command.

nbgrader is the outside reference here: its Autograde and its Execute as they come run every cell
in a Jupyter kernel. The class is invented, one trainee for every habit; the benchmark of marking
compares a larger one.
"""

import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest
from fuelmarks.classroom.mark_class import Done, mark_class
from fuelmarks.course.course import Course
from fuelmarks.demo.invented_class import HABITS
from fuelmarks.questions import load
from fuelmarks.runner import Limits

from tests.scratch_class import (
    COMMENTS,
    OWN_KERNELS,
    ROWS,
    UNIT,
    class_list,
    new_class,
    own_jupyter,
    rows,
    twin,
)

TIMEOUT = "c.Execute.timeout = 15\n"
LIMITS = Limits(cell_seconds=8)
APART = f"c.RunApart.cell_seconds = {LIMITS.cell_seconds}\n"
UNREADABLE = "file broken off"


class Marked:
    """One class, marked in three ways."""

    def __init__(self, folder: Path) -> None:
        course, self.habits = new_class(folder / "class", class_list(len(HABITS)))
        self.kernels = twin(course, folder / "kernels", OWN_KERNELS + TIMEOUT)
        self.apart = twin(course, folder / "apart", APART)
        self.fast = twin(course, folder / "fast")
        running = [autograde(one, folder / "jupyter") for one in (self.kernels, self.apart)]
        self.done = {one.trainee: one for one in mark_class(self.fast, UNIT, limits=LIMITS)}
        self.said = [command.communicate()[1] for command in running]

    def readable(self, course: Course, question: str) -> Mapping[tuple[str, str], Any]:
        """Return what the gradebook says about the trainees whose file can be read."""
        found = rows(course, question)
        return {at: row for at, row in found.items() if self.habits[at[0]] != UNREADABLE}

    def of(self, habit: str) -> Done:
        """Return what became of the first trainee with this habit."""
        return next(done for who, done in self.done.items() if self.habits[who] == habit)


def autograde(course: Course, jupyter: Path) -> "subprocess.Popen[str]":
    """Start nbgrader's own command in a course."""
    return subprocess.Popen(
        [sys.executable, "-m", "nbgrader", "autograde", UNIT],
        cwd=course.root,
        env=own_jupyter(jupyter),
        stdout=subprocess.DEVNULL,
        stderr=subprocess.PIPE,
        text=True,
    )


@pytest.fixture(scope="module")
def marked(tmp_path_factory: pytest.TempPathFactory) -> Marked:
    folder = tmp_path_factory.mktemp("same")
    (folder / "class").mkdir()
    return Marked(folder)


@pytest.mark.parametrize("question", [ROWS, COMMENTS], ids=["scores", "comments"])
@pytest.mark.parametrize("way", ["kernels", "apart"])
def test_gradebook_says_the_same_row_by_row(marked: Marked, way: str, question: str) -> None:
    fast = marked.readable(marked.fast, question)
    assert len(fast) >= (len(HABITS) - 1) * len(load(UNIT).exercises)
    assert marked.readable(getattr(marked, way), question) == fast


@pytest.mark.parametrize("way", ["kernels", "apart", "fast"])
def test_a_broken_file_earns_nothing_and_stops_nobody(marked: Marked, way: str) -> None:
    found = rows(getattr(marked, way))
    broken = [row[0] for at, row in found.items() if marked.habits[at[0]] == UNREADABLE]
    assert not any(broken)
    assert len({who for who, _ in found} | {marked.of(UNREADABLE).trainee}) == len(HABITS)


def test_the_class_is_varied(marked: Marked) -> None:
    points = {done.marks.points for done in marked.done.values() if done.marks}
    assert list(marked.habits.values()) == list(HABITS)
    assert len(points) >= 6


def test_nbgrader_names_the_broken_file_and_no_other(marked: Marked) -> None:
    broken = marked.of(UNREADABLE).trainee
    for said in marked.said:
        named = [line for line in said.splitlines() if " for student '" in line]
        assert len(named) == 1
        assert broken in named[0]

"""What the tests of a class share: submissions to mark, a warm runner, a box of returned work."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from fuelmarks.authoring.build import build
from fuelmarks.classroom.hand_out import hand_out
from fuelmarks.classroom.mark_class import mark_class
from fuelmarks.course.course import Course
from fuelmarks.runner import Limits, Runner

from tests.classroom.box import Box
from tests.classroom.marks import Marker
from tests.small_unit import UNIT, new_course

LIMITS = Limits(cell_seconds=5.0)


@pytest.fixture(scope="session")
def runner() -> Iterator[Runner]:
    """A warm runner that soon stops a cell that never ends."""
    with Runner(limits=LIMITS) as warm:
        yield warm


@pytest.fixture(scope="session")
def mark(runner: Runner) -> Marker:
    """Marking with one warm runner for all tests of a class."""
    return lambda course, **asked: mark_class(course, UNIT, runner=runner, **asked)


@pytest.fixture(scope="session")
def untouched(tmp_path_factory: pytest.TempPathFactory) -> Course:
    """A course with two submissions, left as they were handed out; tests take a copy of it."""
    course = new_course(tmp_path_factory.mktemp("two"), trainees=2)
    build(course, UNIT)
    for one in hand_out(course, UNIT):
        shutil.copytree(one.path.parent, course.folder("submitted", UNIT, one.trainee))
    return course


@pytest.fixture
def two(untouched: Course, tmp_path: Path) -> Course:
    """A course of one's own with two submissions, left as they were handed out."""
    shutil.copytree(untouched.root, tmp_path, dirs_exist_ok=True)
    return Course.at(tmp_path)


@pytest.fixture(scope="session")
def handed_out(tmp_path_factory: pytest.TempPathFactory) -> Course:
    """A class of three with a due date, and a ninth who left after the hand-out."""
    course = new_course(tmp_path_factory.mktemp("course"), trainees=9)
    build(course, UNIT)
    list(hand_out(course, UNIT))
    listed = (course.root / "class.csv").read_text().splitlines()[:4]
    (course.root / "class.csv").write_text("\n".join(listed))
    dates = f"[due]\n{UNIT} = 2026-11-10T12:00:00Z\n[due.t002]\n{UNIT} = 2026-11-20T12:00:00Z\n"
    with (course.root / "term.toml").open("a") as file:
        file.write(dates)
    return course


@pytest.fixture
def box(handed_out: Course, tmp_path: Path) -> Box:
    """An empty box for a class of its own."""
    shutil.copytree(handed_out.root, tmp_path / "course")
    return Box(Course.at(tmp_path / "course"), tmp_path / "returned")

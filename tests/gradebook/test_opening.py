"""A gradebook that cannot be used says so in one sentence, with what to do, and is left alone."""

import shutil
import sqlite3
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from fuelmarks.authoring.build import build
from fuelmarks.book.class_record import class_record
from fuelmarks.classroom.hand_out import hand_out
from fuelmarks.classroom.mark_class import mark_class
from fuelmarks.course.course import Course, CourseError
from fuelmarks.gradebook.entered import noted_due_date, stored_sources, who_is_marked
from fuelmarks.gradebook.opening import GradebookError, in_words, newest_version
from fuelmarks.runner import Runner
from nbgrader.api import get_alembic_version
from sqlalchemy import create_engine, event, text
from sqlalchemy.engine import Engine

from tests.small_unit import UNIT, new_course


@pytest.fixture(scope="module")
def handed_in(tmp_path_factory: pytest.TempPathFactory) -> Course:
    """A course with one submission."""
    course = new_course(tmp_path_factory.mktemp("course"), trainees=1)
    build(course, UNIT)
    for one in hand_out(course, UNIT):
        shutil.copytree(one.path.parent, course.folder("submitted", UNIT, one.trainee))
    return course


@pytest.fixture
def course(handed_in: Course, tmp_path: Path) -> Course:
    """A copy of it, to spoil."""
    shutil.copytree(handed_in.root, tmp_path / "course")
    return Course.at(tmp_path / "course")


def asked(course: Course, question: str) -> None:
    with sqlite3.connect(course.root / "gradebook.db") as book:
        book.execute(question)
    book.close()


def older(course: Course) -> None:
    asked(course, "update alembic_version set version_num = '724cde206c17'")


def newer(course: Course) -> None:
    asked(course, "update alembic_version set version_num = 'ffffffffffff'")


def unnamed(course: Course) -> None:
    asked(course, "drop table alembic_version")


def foreign(course: Course) -> None:
    (course.root / "gradebook.db").unlink()
    asked(course, "create table recipes (name text)")


def no_database(course: Course) -> None:
    (course.root / "gradebook.db").write_text("Dear diary, " * 500)


def cut_off(course: Course) -> None:
    path = course.root / "gradebook.db"
    path.write_bytes(path.read_bytes()[:6000])


def a_folder(course: Course) -> None:
    (course.root / "gradebook.db").unlink()
    (course.root / "gradebook.db").mkdir()


SPOILT: dict[str, tuple[Callable[[Course], None], str]] = {
    "older": (older, "got an older version; copy it first, then run `nbgrader db upgrade`"),
    "newer": (newer, "got a newer version; install the nbgrader that wrote it"),
    "no version": (unnamed, "got an older version; copy it first"),
    "foreign": (foreign, r"got a database with other tables \(recipes\); put your copy back"),
    "no database": (no_database, "must be a database, got another kind of file; put your copy"),
    "cut off": (cut_off, "must be a whole database, got a damaged one; put your copy back"),
    "a folder": (a_folder, "must be a file that may be opened, got another kind"),
}
STEPS: dict[str, Callable[[Course], Any]] = {
    "build": lambda course: build(course, UNIT),
    "mark": lambda course: list(mark_class(course, UNIT, trust=True)),
    "report": lambda course: class_record(course, UNIT),
}


@pytest.mark.parametrize("step", STEPS.values(), ids=STEPS)
@pytest.mark.parametrize(("spoil", "sentence"), SPOILT.values(), ids=SPOILT)
def test_a_gradebook_that_cannot_be_used_is_named_and_left_alone(
    course: Course, spoil: Callable[[Course], None], sentence: str, step: Callable[[Course], Any]
) -> None:
    spoil(course)
    path = course.root / "gradebook.db"
    before = path.read_bytes() if path.is_file() else b""
    with pytest.raises(GradebookError, match=sentence) as refused:
        step(course)
    assert "\n" not in str(refused.value)
    assert (path.read_bytes() if path.is_file() else b"") == before


ASKED: dict[str, Callable[[Course], Any]] = {
    "who is marked": lambda course: who_is_marked(course, UNIT),
    "the rubrics": lambda course: stored_sources(course, UNIT),
    "the due date": lambda course: noted_due_date(course, UNIT),
}


@pytest.mark.parametrize("ask", ASKED.values(), ids=ASKED)
@pytest.mark.parametrize("empty", [False, True], ids=["no file", "an empty file"])
def test_asking_a_gradebook_that_is_not_there_begins_none(
    course: Course, ask: Callable[[Course], Any], empty: bool
) -> None:
    path = course.root / "gradebook.db"
    path.unlink()
    if empty:
        path.touch()
    assert not ask(course)
    with pytest.raises(CourseError, match="must be built before it is marked, got no gradebook"):
        list(mark_class(course, UNIT, trust=True))
    assert (path.exists(), empty and path.read_bytes()) == (empty, empty and b"")
    build(course, UNIT)
    assert who_is_marked(course, UNIT) == set()


def test_a_gradebook_that_another_program_holds_is_named(
    course: Course, monkeypatch: pytest.MonkeyPatch, runner: Runner
) -> None:
    impatient(monkeypatch)
    other = sqlite3.connect(course.root / "gradebook.db", isolation_level=None)
    other.execute("begin exclusive")
    try:
        with pytest.raises(GradebookError, match="got one that another program is writing in"):
            list(mark_class(course, UNIT, runner=runner))
    finally:
        other.close()
    assert [done.state for done in mark_class(course, UNIT, runner=runner)] == ["marked"]


def impatient(monkeypatch: pytest.MonkeyPatch) -> None:
    """Have SQLite wait a twentieth of a second for a lock, where it waits five seconds."""
    connect = sqlite3.connect
    monkeypatch.setattr(sqlite3, "connect", lambda *a, **b: connect(*a, **{**b, "timeout": 0.05}))
    monkeypatch.setattr(sqlite3.dbapi2, "connect", sqlite3.connect)


@in_words()
def enter(course: Course, *sentences: str) -> None:
    """Have the gradebook do what `sentences` say, all or nothing."""
    engine = create_engine(course.gradebook)
    try:
        with engine.begin() as connection:
            for sentence in sentences:
                connection.execute(text(sentence))
    finally:
        engine.dispose()


def test_a_gradebook_on_a_full_disk_is_named_and_loses_nothing(
    course: Course, runner: Runner
) -> None:
    list(mark_class(course, UNIT, runner=runner))

    def small(connection: Any, _: object) -> None:
        pages = connection.execute("pragma page_count").fetchone()[0]
        connection.execute(f"pragma max_page_count = {pages}")

    before = (course.root / "gradebook.db").read_bytes()
    fat = f"insert into more values ('{'x' * 100_000}')"
    event.listen(Engine, "connect", small)
    try:
        with pytest.raises(GradebookError, match="have room on its disk, got a full one"):
            enter(course, "create table more (much text)", fat)
    finally:
        event.remove(Engine, "connect", small)
    assert (course.root / "gradebook.db").read_bytes() == before


def test_what_no_sentence_is_for_is_still_one_line(course: Course) -> None:
    with pytest.raises(GradebookError, match=r"gradebook\.db must be fit to be used, got: .*$"):
        enter(course, "select nonsense(")


def test_the_newest_version_is_the_one_nbgrader_itself_would_note() -> None:
    assert newest_version() == get_alembic_version()

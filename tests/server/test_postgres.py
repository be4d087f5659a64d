"""The gradebook on PostgreSQL: moved with nothing lost, marked on, and there after a sudden end."""

import importlib
import pkgutil
import subprocess
import sys
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import fuelmarks.gradebook
import pytest
from fuelmarks.authoring.build import build
from fuelmarks.book.pages import write_reports
from fuelmarks.classroom.mark_class import mark_class
from fuelmarks.commands.cli import main
from fuelmarks.course.course import Course, CourseError
from fuelmarks.course.term import use_gradebook
from fuelmarks.gradebook.book import Ledger
from fuelmarks.gradebook.given import TABLES, Given, Tick
from fuelmarks.gradebook.moving import OWN, copy_gradebook
from fuelmarks.gradebook.opening import GradebookError, new_gradebook
from fuelmarks.runner import Runner
from sqlalchemy import create_engine, text

from tests.scratch_class import COMMENTS, ROWS, own_jupyter, twin
from tests.server.database import Database, database
from tests.small_unit import UNIT
from tests.written_class import QUESTION, written_class

LATE = '[due]\n90-small-unit = 2026-01-01\n[late]\nrule = "percent-a-day"\npercent = 10\n'
EVERYTHING = (ROWS, COMMENTS, "select * from fuelmarks_given order by 1", "select * from student")


@pytest.fixture(scope="module")
def server() -> Iterator[Database]:
    with database() as found:
        yield found


@pytest.fixture(scope="module")
def in_a_file(tmp_path_factory: pytest.TempPathFactory, runner: Runner) -> Course:
    """A class of three, late, marked by machine and partly by hand, in a file."""
    course = written_class(tmp_path_factory.mktemp("file"), ["One.", "Two.", "Three."])
    with (course.root / "term.toml").open("a") as file:
        file.write(LATE)
    for trainee in ("t001", "t002", "t003"):
        stamp = course.folder("submitted", UNIT, trainee) / "timestamp.txt"
        stamp.write_text("2026-01-02 12:00:00 UTC\n")
    list(mark_class(course, UNIT, runner=runner))
    with Ledger(course, UNIT) as ledger:
        ticks = (Tick(1.0, "the level is a balance.", True),)
        given = Given("page", 1.0, datetime(2026, 1, 3, tzinfo=UTC), ticks)
        ledger.give("t001", f"90-{QUESTION}", given, "Say why it smells.")
    list(mark_class(course, UNIT, runner=runner, again=True))
    return course


@pytest.fixture
def moved(in_a_file: Course, server: Database, tmp_path: Path) -> Course:
    """The same class, its gradebook on the server."""
    course = twin(in_a_file, tmp_path / "course")
    address = server.address(tmp_path.name.replace("-", "_")[:40].lower())
    assert main(["gradebook", "--to", address, "--use", "--course", str(course.root)]) == 0
    return course


def held(course: Course) -> list[list[tuple[Any, ...]]]:
    """Return all that a gradebook holds of a class, in order."""
    engine = create_engine(course.gradebook)
    try:
        with engine.connect() as book:
            asked = [book.execute(text(one)).all() for one in EVERYTHING]
    finally:
        engine.dispose()
    return [sorted((tuple(map(str, row)) for row in rows), key=str) for rows in asked]


def plain(found: list[list[tuple[Any, ...]]]) -> list[list[tuple[Any, ...]]]:
    """Return it as SQLite and PostgreSQL both write it: truth, and moments."""
    words = {"True": "1", "False": "0"}
    return [
        sorted(tuple(words.get(cell, cell).removesuffix(".000000") for cell in row) for row in rows)
        for rows in found
    ]


def test_a_copy_knows_every_table_of_ours_whoever_asks_for_it() -> None:
    for module in pkgutil.iter_modules(fuelmarks.gradebook.__path__):
        importlib.import_module(f"fuelmarks.gradebook.{module.name}")
    assert {table.name for table in OWN} == set(TABLES.tables)


def test_nothing_is_lost_on_the_way(in_a_file: Course, moved: Course) -> None:
    assert moved.gradebook.startswith("postgresql+psycopg://")
    assert plain(held(moved)) == plain(held(in_a_file))
    assert moved.key == in_a_file.key


def test_reports_and_lateness_are_the_same(in_a_file: Course, moved: Course) -> None:
    for course in (in_a_file, moved):
        list(write_reports(course, UNIT))
    tables = [(one.root / "reports" / UNIT / "marks.csv").read_text() for one in (in_a_file, moved)]
    assert tables[0] == tables[1]
    assert "late by" in tables[0]


def test_marking_goes_on_there(moved: Course, runner: Runner) -> None:
    assert {done.state for done in mark_class(moved, UNIT, runner=runner)} == {"kept"}
    before = held(moved)
    again = list(mark_class(moved, UNIT, runner=runner, again=True))
    assert {done.state for done in again} == {"marked"}
    assert held(moved) == before
    build(moved, UNIT)


def test_nbgrader_itself_finds_it_there(moved: Course, tmp_path: Path) -> None:
    asked = [sys.executable, "-m", "nbgrader", "export", "--to", "points.csv"]
    done = subprocess.run(
        asked,
        cwd=moved.root,
        env=own_jupyter(tmp_path),
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    assert "t003" in (moved.root / "points.csv").read_text()


def test_a_safe_copy_is_put_back(moved: Course, server: Database, tmp_path: Path) -> None:
    here = ["--course", str(moved.root)]
    assert main(["gradebook", "--to", str(tmp_path / "safe.db"), *here]) == 0
    before = held(moved)
    address = server.address("put_back_" + tmp_path.name.replace("-", "_")[:30].lower())
    asked = ["gradebook", "--from", str(tmp_path / "safe.db"), "--to", address, "--use", *here]
    assert main(asked) == 0
    assert Course.at(moved.root).gradebook == address
    assert held(Course.at(moved.root)) == before


def test_what_lies_at_the_other_end_is_never_touched(in_a_file: Course, moved: Course) -> None:
    before = held(moved)
    with pytest.raises(GradebookError, match="must be an empty database, got one with tables"):
        copy_gradebook(in_a_file, in_a_file.gradebook, moved.gradebook)
    assert held(moved) == before


def test_a_copy_that_cannot_be_whole_leaves_nothing(
    in_a_file: Course, server: Database, tmp_path: Path
) -> None:
    long = twin(in_a_file, tmp_path / "course")
    engine = create_engine(long.gradebook)
    with engine.begin() as book:
        book.execute(text("update student set last_name = :name"), {"name": "x" * 150})
    engine.dispose()
    address = server.address("too_long")
    with pytest.raises(GradebookError, match="names of 128 characters or fewer"):
        copy_gradebook(long, long.gradebook, address)
    copy_gradebook(in_a_file, in_a_file.gradebook, address)


@pytest.mark.parametrize("address", ["mysql://localhost/x", "gradebook.db", "postgresql://x/y"])
def test_an_address_of_another_kind_is_refused(in_a_file: Course, address: str) -> None:
    with pytest.raises(CourseError, match="gradebook must begin with postgresql"):
        use_gradebook(in_a_file.root, address)
    assert Course.at(in_a_file.root).gradebook == in_a_file.gradebook


def test_a_server_that_is_not_there_is_told_in_one_sentence(tmp_path: Path) -> None:
    course = written_class(tmp_path, ["One."])
    use_gradebook(course.root, f"postgresql+psycopg://course@/x?host={tmp_path}")
    with pytest.raises(GradebookError, match=r"must be reached at the address in term\.toml"):
        new_gradebook(course)


def test_a_power_cut_while_marks_are_entered_loses_none(
    in_a_file: Course, server: Database, runner: Runner, tmp_path: Path
) -> None:
    course = twin(in_a_file, tmp_path / "course")
    address = server.address("power_cut")
    copy_gradebook(in_a_file, in_a_file.gradebook, address)
    use_gradebook(course.root, address)
    before = held(course)
    marking = mark_class(course, UNIT, runner=runner, again=True)
    assert next(marking).state == "marked"
    server.kill()
    with pytest.raises(GradebookError, match="start it, then run the same command again"):
        list(marking)
    server.begin()
    assert held(course) == before
    assert {one.state for one in mark_class(course, UNIT, runner=runner)} <= {"kept", "marked"}
    assert held(course) == before

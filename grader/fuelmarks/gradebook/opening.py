"""Open nbgrader's gradebook, and say in one sentence what to do where that cannot be done."""

import re
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from functools import cache
from pathlib import Path

from sqlalchemy import Connection, Engine, create_engine, inspect, make_url, text
from sqlalchemy.exc import SQLAlchemyError

from fuelmarks.course.course import Course, CourseError
from fuelmarks.gradebook.nbgraders import ALEMBIC_DIR, Base, Gradebook

__all__ = [
    "GradebookError",
    "check_gradebook",
    "in_words",
    "make_tables",
    "new_gradebook",
    "newest_version",
    "open_gradebook",
    "place_of",
]

AGAIN = "then run the same command again; what was entered is kept"
SENTENCES: Mapping[str, str] = {
    "connection to server": "be reached at the address in term.toml, got no answer there, or none "
    f"for this name and password; start the database or set the address right, {AGAIN}",
    "connection is lost": f"stay there, got a database that ended; start it, {AGAIN}",
    "closed the connection": f"stay there, got a database that ended; start it, {AGAIN}",
    "terminating connection": f"stay there, got a database that was ended; start it, {AGAIN}",
    "value too long": "hold names of 128 characters or fewer, got a longer one; make it shorter in "
    f"class.csv, {AGAIN}",
    "no such module": "have its driver installed, got none; install `fuelmarks[postgres]`",
    "locked": "be free, got one that another program is writing in, such as formgrader or a second "
    f"marking; wait or close that, {AGAIN}",
    "is full": f"have room on its disk, got a full one; make room, {AGAIN}",
    "disk i/o error": f"lie on a sound disk, got an error of the disk; look at it, {AGAIN}",
    "readonly": "be writable, got one that may only be read; change its rights and its folder's",
    "unable to open": "be a file that may be opened, got another kind or none of your rights",
    "not a database": "be a database, got another kind of file; put your copy back",
    "malformed": "be a whole database, got a damaged one; put your copy back",
    "no such": "be nbgrader's gradebook of this version, got other tables; put your copy back, or "
    "copy it and run `nbgrader db upgrade`",
}
OLDER = "copy it first, then run `nbgrader db upgrade`"
NEWER = "install the nbgrader that wrote it"
TABLES = {"assignment", "notebook", "student", "grade"}


class GradebookError(CourseError):
    """The gradebook cannot be used as it is; the message says what to do."""


@contextmanager
def in_words(*others: type[Exception]) -> Iterator[None]:
    """Turn what a database complains of, or what is one of `others`, into a `GradebookError`."""
    told: tuple[type[Exception], ...] = (SQLAlchemyError, *others)
    try:
        yield
    except told as error:
        said = str(error).lower()
        what = next((words for sign, words in SENTENCES.items() if sign in said), "")
        plain = what or f"be fit to be used, got: {str(error).splitlines()[0]}"
        name = "the gradebook's database" if "psycopg" in said else "gradebook.db"
        raise GradebookError(f"{name} must {plain}") from error


def open_gradebook(course: Course) -> Gradebook:
    """Return nbgrader's gradebook of `course`; raise `GradebookError` if it cannot be used."""
    check_gradebook(course)
    with in_words():
        return Gradebook(course.gradebook, "")


@in_words()
def check_gradebook(course: Course) -> bool:
    """Return whether there is a gradebook; where there is none, none is begun.

    Raises `GradebookError` if there is one that is not nbgrader's, older, or newer.
    """
    if not course.has_gradebook:
        return False
    engine = create_engine(course.gradebook)
    try:
        tables = set(inspect(engine).get_table_names())
        if not tables:
            return False
        if TABLES - tables:
            known = ", ".join(sorted(tables)[:3])
            raise GradebookError(
                f"{place_of(course.gradebook)} must be nbgrader's gradebook, got a database "
                f"with other tables ({known}); put your copy back"
            )
        found = _version(engine) if "alembic_version" in tables else ""
    finally:
        engine.dispose()
    if found != newest_version():
        age, advice = ("an older", OLDER) if found in ("", *_versions()) else ("a newer", NEWER)
        raise GradebookError(
            f"{place_of(course.gradebook)} must have the tables of the nbgrader installed here, "
            f"got {age} version; {advice}"
        )
    return True


@in_words()
def new_gradebook(course: Course) -> None:
    """Make the tables of an empty gradebook, with the version that nbgrader itself would note."""
    check_gradebook(course)
    engine = create_engine(course.gradebook)
    try:
        if inspect(engine).get_table_names():
            return
        with engine.begin() as connection:
            make_tables(connection)
    finally:
        engine.dispose()


def make_tables(connection: Connection) -> None:
    """Make nbgrader's tables in an empty database, in the transaction of `connection`."""
    Base.metadata.create_all(connection)
    connection.execute(text("CREATE TABLE alembic_version (version_num VARCHAR(32) NOT NULL)"))
    known = {"v": newest_version()}
    connection.execute(text("INSERT INTO alembic_version VALUES (:v)"), known)


def place_of(address: str) -> str:
    """Return where a gradebook lies, fit to be shown: a file's path, or an address, no password."""
    url = make_url(address)
    if url.get_backend_name() == "sqlite":
        return str(url.database)
    return url.render_as_string(hide_password=True)


def newest_version() -> str:
    """Return the version of the tables that the installed nbgrader makes."""
    versions = _versions()
    return next(version for version in versions if version not in versions.values())


def _version(engine: Engine) -> str:
    """Return the version that a gradebook notes."""
    with engine.connect() as connection:
        return str(connection.scalar(text("SELECT version_num FROM alembic_version")))


@cache
def _versions() -> Mapping[str, str]:
    """Return every version of the tables that nbgrader knows, with the one before it.

    Read from its scripts as text: to load alembic takes a second and a half.
    """
    found = {}
    for script in Path(ALEMBIC_DIR, "versions").glob("*.py"):
        held = dict(
            re.findall(r"^(revision|down_revision) = '?(\w+)'?", script.read_text("utf-8"), re.M)
        )
        found[held["revision"]] = held["down_revision"]
    return found

"""``fuelmarks study``: the course for somebody who learns alone, in JupyterLab."""

import argparse
import webbrowser
from pathlib import Path

from fuelmarks.commands import arguments
from fuelmarks.course.course import Course
from fuelmarks.course.error import CourseError
from fuelmarks.study.folder import lay_out
from fuelmarks.study.lab import begun, is_root
from fuelmarks.study.progress import FILE
from fuelmarks.study.telling import what_next

__all__ = ["options", "run"]

ROOT = (
    "You are root, the administrator: whatever a notebook does, it may do to the whole computer. "
    "An ordinary account is safer."
)
STOPPED = "Stopped. Your work is kept in {folder}; the same command opens it again."


def options(parser: argparse.ArgumentParser) -> None:
    """Ask for the learner's folder, and how JupyterLab opens."""
    arguments.study_folder(parser)
    parser.add_argument("--port", type=arguments.port, default=8888, metavar="N", help="(8888)")
    parser.add_argument(
        "--no-browser", action="store_true", help="say the address, open no browser"
    )
    parser.add_argument("--no-lab", action="store_true", help="lay out only, start no JupyterLab")


def run(asked: argparse.Namespace) -> int:
    """Lay out the course, say what is next, and open its page until somebody stops it."""
    folder = lay_out(_course(asked.course), asked.into)
    advice = what_next(folder)
    print(f"Your course lies in {folder}; your progress is kept in {FILE}.\n{advice!r}")
    if asked.no_lab:
        return 0
    if is_root():
        print(ROOT)
    unit = advice.suggestions[0].unit if advice.suggestions else ""
    return _open(folder, unit, asked.port, browser=not asked.no_browser)


def _course(where: Path) -> Course:
    """Return the course in a folder, or in the folder ``course`` of it.

    Raises `CourseError` if there is none.
    """
    for folder in (where, where / "course"):
        if (folder / "units").is_dir():
            return Course.at(folder)
    raise CourseError(
        f"course must be a folder that holds the course's units, got {where.resolve()}; run this "
        "in your copy of the course, or say where it lies: --course FOLDER"
    )


def _open(folder: Path, unit: str, port: int, *, browser: bool) -> int:
    """Serve the course until it is stopped, saying at which addresses."""
    print("JupyterLab starts ...", flush=True)
    one, server = begun(folder, unit, port)
    print(f"Your course: {one.home}")
    print(f"The unit to go on with: {one.unit}")
    print(f"What the server writes: {one.log}")
    print("Ctrl-C here stops it.", flush=True)
    if browser:
        webbrowser.open(one.home)
    try:
        return server.wait()
    except KeyboardInterrupt:
        server.terminate()
        server.wait()
        print(STOPPED.format(folder=folder))
        return 0

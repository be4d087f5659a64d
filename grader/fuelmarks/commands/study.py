"""What ``fuelmarks study`` and ``fuelmarks next`` do, for somebody who learns alone."""

import argparse
import shutil
import subprocess
import sys
from pathlib import Path

from fuelmarks.authoring.glossary import glossary_page
from fuelmarks.authoring.own_car import NAME as OWN_CAR
from fuelmarks.course.course import Course
from fuelmarks.course.notebook import write
from fuelmarks.study.notebook import study_notebook
from fuelmarks.study.progress import FILE, Progress, write_progress
from fuelmarks.study.telling import OUTCOMES, what_next

__all__ = ["lab_command", "lay_out", "next", "study"]


def study(asked: argparse.Namespace) -> int:
    """Lay out the course, say what is next, and open JupyterLab there until it is stopped."""
    folder = lay_out(Course.at(asked.course), asked.into)
    advice = what_next(folder)
    print(f"Your course lies in {folder}; your progress is kept in {FILE}.\n{advice!r}")
    if asked.no_lab:
        return 0
    unit = advice.suggestions[0].unit if advice.suggestions else ""
    command = lab_command(folder, unit, asked.port, browser=not asked.no_browser)
    return subprocess.run(command, cwd=folder, check=False).returncode


def next(asked: argparse.Namespace) -> int:  # noqa: A001 - the command's own name
    """Say what to do next."""
    print(repr(what_next(asked.into)))
    return 0


def lay_out(course: Course, into: Path) -> Path:
    """Copy the course to where the learner works, and begin a progress file.

    Nothing of the learner's is overwritten; the glossary and the list of outcomes, which are
    nobody's work, are made anew. A unit that has not been built is built first.
    """
    folder = into.resolve()
    folder.mkdir(parents=True, exist_ok=True)
    for unit in course.units():
        if not course.notebook("release", unit).exists():
            from fuelmarks.authoring.build import build  # noqa: PLC0415 - the course comes built

            build(course, unit)
        if not (mine := folder / unit / f"{unit}.ipynb").exists():
            shutil.copytree(course.folder("release", unit), folder / unit, dirs_exist_ok=True)
            write(study_notebook(course, unit), mine)
    if (own := course.root / "release" / OWN_CAR).is_dir() and not (folder / OWN_CAR).exists():
        shutil.copytree(own, folder / OWN_CAR)
    if (course.root / "glossary.toml").is_file():
        (folder / "glossary.html").write_text(glossary_page(course, "."), encoding="utf-8")
    if (outcomes := course.root / OUTCOMES).is_file():
        shutil.copyfile(outcomes, folder / OUTCOMES)
    if not (folder / FILE).exists():
        write_progress(folder / FILE, Progress())
    return folder


def lab_command(folder: Path, unit: str, port: int, *, browser: bool) -> list[str]:
    """Return the command that opens JupyterLab on `folder`, for this computer only."""
    return [
        *(sys.executable, "-m", "jupyterlab", f"--port={port}", "--ServerApp.ip=127.0.0.1"),
        f"--ServerApp.root_dir={folder}",
        *(() if browser else ("--no-browser",)),
        *((str(folder / unit / f"{unit}.ipynb"),) if unit else ()),
    ]

"""``fuelmarks study``: the course for somebody who learns alone, in JupyterLab."""

import argparse
import os
import subprocess
import sys
from pathlib import Path

from fuelmarks.commands import arguments
from fuelmarks.course.course import Course
from fuelmarks.study.folder import lay_out
from fuelmarks.study.progress import FILE
from fuelmarks.study.telling import what_next

__all__ = ["lab_command", "options", "run"]


ROOT = (
    "JupyterLab refuses to run as root: use an ordinary account, "
    "or add --allow-root after `fuelmarks study`, which passes it on."
)


def options(parser: argparse.ArgumentParser) -> None:
    """Ask for the learner's folder, and how JupyterLab opens."""
    arguments.study_folder(parser)
    parser.add_argument("--port", type=int, default=8888, metavar="N", help="(8888)")
    parser.add_argument(
        "--no-browser", action="store_true", help="say the address, open no browser"
    )
    parser.add_argument(
        "--allow-root", action="store_true", help="let JupyterLab run as root, which it refuses"
    )
    parser.add_argument("--no-lab", action="store_true", help="lay out only, start no JupyterLab")


def run(asked: argparse.Namespace) -> int:
    """Lay out the course, say what is next, and open JupyterLab there until it is stopped."""
    folder = lay_out(Course.at(asked.course), asked.into)
    advice = what_next(folder)
    print(f"Your course lies in {folder}; your progress is kept in {FILE}.\n{advice!r}")
    if asked.no_lab:
        return 0
    if os.geteuid() == 0 and not asked.allow_root:
        print(ROOT)
        return 0
    unit = advice.suggestions[0].unit if advice.suggestions else ""
    command = lab_command(folder, unit, asked.port, browser=not asked.no_browser)
    command += ["--allow-root"] if asked.allow_root else []
    return subprocess.run(command, cwd=folder, check=False).returncode


def lab_command(folder: Path, unit: str, port: int, *, browser: bool) -> list[str]:
    """Return the command that opens JupyterLab on `folder`, for this computer only."""
    return [
        *(sys.executable, "-m", "jupyterlab", f"--port={port}", "--ServerApp.ip=127.0.0.1"),
        f"--ServerApp.root_dir={folder}",
        *(() if browser else ("--no-browser",)),
        *((str(folder / unit / f"{unit}.ipynb"),) if unit else ()),
    ]

"""What of a course people write, for whoever takes a course to another folder."""

import shutil
from pathlib import Path

__all__ = ["FILES", "FOLDERS", "copy_written"]

FOLDERS = ("units", "rigs", "own-car")
FILES = (
    "nbgrader_config.py",
    "outcomes.toml",
    "glossary.toml",
    "term_plan.toml",
    "task_readings.toml",
)


def copy_written(course: Path, into: Path) -> None:
    """Copy what people wrote in the folder `course`, as far as it is there, to the folder `into`.

    Neither what is made of it goes along nor anything of a class: no list, no key, no marks.
    """
    into.mkdir(parents=True, exist_ok=True)
    for name in FOLDERS:
        if (course / name).is_dir():
            shutil.copytree(course / name, into / name)
    for name in FILES:
        if (course / name).is_file():
            shutil.copyfile(course / name, into / name)

"""What decides about a mark is in the fingerprint: no class keeps a mark that is outdated."""

import subprocess
import sys
from pathlib import Path

import fuelcircuits
import fuelmarks
from fuelmarks.course.fingerprint import deciding

PACKAGES = tuple(Path(str(one.__file__)).parent for one in (fuelcircuits, fuelmarks))
LOADED = """
import sys
import fuelmarks.gradebook.results
from fuelmarks.questions.frame.shelf import find
print(*(one.__file__ for name, one in sys.modules.items()
        if name.partition(".")[0] in ("fuelcircuits", "fuelmarks")), sep="\\n")
"""
BEFORE_AND_AFTER = ("course", "runner")
"""Rooms that marking loads and that decide about no mark: where things lie, and what is run."""


def test_every_module_that_marking_loads_is_in_it() -> None:
    done = subprocess.run(
        [sys.executable, "-c", LOADED], capture_output=True, text=True, check=True
    )
    loaded = {Path(line) for line in done.stdout.split()}
    assert len(loaded) > 100
    apart = {PACKAGES[1] / "__init__.py"}
    apart |= {one for name in BEFORE_AND_AFTER for one in (PACKAGES[1] / name).rglob("*")}
    assert loaded - apart <= set(deciding())


def test_the_tables_that_questions_are_marked_by_are_in_it() -> None:
    tables = ("diagnosis/jobs.json", "diagnosis/plover.json"), ("questions/diagnosis/garage.toml",)
    wanted = {top / name for top, names in zip(PACKAGES, tables, strict=True) for name in names}
    assert all(path.is_file() for path in wanted)
    assert wanted <= set(deciding())

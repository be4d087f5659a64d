"""How long marking takes, beside nbgrader as it comes and beside the bare cells.

The class is invented. Timed are the submissions that nbgrader as it comes gets to the end of: no
endless loop, no broken file, no copied or deleted cells. Both commands are timed whole, their
start included, on the same files one after the other. ``MARKING_CLASS`` changes the number of
trainees, ``MARKING_MANY`` the number of copies in the test of scale.
"""

import json
import os
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

from fuelmarks.course import Course

from tests.scratch_class import OWN_KERNELS, UNIT, class_list, new_class, own_jupyter, rows, twin

CLASS = int(os.environ.get("MARKING_CLASS", "42"))
MANY = int(os.environ.get("MARKING_MANY", "1000"))
TROUBLE = ("an endless loop", "file broken off", "cells copied", "cells deleted")

AS_IT_COMES = """
del c.Autograde.sanitize_preprocessors
del c.Autograde.autograde_preprocessors
c.Execute.iopub_timeout = 60
"""
OURS = ("-m", "fuelmarks.cli", "mark", UNIT)
NBGRADER = ("-m", "nbgrader", "autograde", UNIT)


def measures() -> Iterator[dict[str, Any]]:
    """Yield the times, the ratios, the rows that differ, and how a large class goes."""
    with tempfile.TemporaryDirectory() as scratch:
        folder = Path(scratch)
        course, habits = new_class(folder / "class", class_list(CLASS))
        for trainee, habit in habits.items():
            if habit in TROUBLE:
                shutil.rmtree(course.root / "submitted" / trainee)
        yield from _many(course, folder / "many")
        yield from _beside_nbgrader(course, folder)


def _beside_nbgrader(course: Course, folder: Path) -> Iterator[dict[str, Any]]:
    number = len(list((course.root / "submitted").iterdir()))
    as_it_comes = twin(course, folder / "stock", AS_IT_COMES)
    kernels = twin(course, folder / "kernels", OWN_KERNELS)
    ours = twin(course, folder / "ours")
    fast = _seconds(OURS, ours.root, folder) / number
    slow = _seconds(NBGRADER, as_it_comes.root, folder) / number
    bare = float(_run(("-m", "tests.benchmarks._bare", str(ours.root / "autograded")), folder))
    _seconds(NBGRADER, kernels.root, folder)
    theirs, found = rows(kernels), rows(ours)
    differing = sum(theirs.get(key) != found.get(key) for key in theirs.keys() | found.keys())
    yield _measure("notebooks marked", number, "1")
    yield _measure("nbgrader as it comes, a notebook", slow, "s")
    yield _measure("fuelmarks mark, a notebook", fast, "s")
    yield _measure("nbgrader over fuelmarks", slow / fast, "1")
    yield _measure("bare cells, a notebook", bare / number, "s")
    yield _measure("fuelmarks over bare cells", fast * number / bare, "1")
    yield _measure("gradebook rows", len(found), "1")
    yield _measure("gradebook rows that differ from nbgrader's own kernels", differing, "1")


def _many(course: Course, folder: Path) -> Iterator[dict[str, Any]]:
    """Yield time and memory of a class of `MANY`, all of whom hand in the same notebook."""
    trainees = class_list(MANY)
    shutil.copytree(course.root, folder, ignore=shutil.ignore_patterns("handout", "returned"))
    one = shutil.move(folder / "submitted" / trainees[0].id, folder / "copied")
    shutil.rmtree(folder / "submitted")
    for trainee in trainees:
        shutil.copytree(one, folder / "submitted" / trainee.id)
    quarter = MANY // 4
    words = ("-m", "tests.benchmarks._many", str(folder), UNIT, str(quarter))
    found = json.loads(_run(words, folder))
    seconds, peak = found["seconds"], found["peak"]
    first, last = seconds[1] - seconds[0], seconds[7] - seconds[6]
    yield _measure("notebooks in a large class", MANY, "1")
    yield _measure("large class, a notebook", (seconds[7] - seconds[0]) / (MANY - 1), "s")
    yield _measure("large class, last quarter's time over the first's", last / first, "1")
    yield _measure("large class, peak memory after a quarter", peak[1] / 1e6, "MB")
    yield _measure("large class, peak memory at the end", peak[7] / 1e6, "MB")


def _seconds(words: Sequence[str], where: Path, folder: Path) -> float:
    start = time.perf_counter()
    _run(words, folder, where)
    return time.perf_counter() - start


def _run(words: Sequence[str], folder: Path, where: Path | None = None) -> str:
    """Return what one Python command prints; raise with its complaint if it fails."""
    done = subprocess.run(
        [sys.executable, *words],
        cwd=where,
        env=own_jupyter(folder),
        capture_output=True,
        text=True,
        check=False,
    )
    if done.returncode != 0:
        raise RuntimeError(f"{words} must end well, got {done.returncode}: {done.stderr[-2000:]}")
    return done.stdout


def _measure(name: str, value: float, unit: str) -> dict[str, Any]:
    return {"name": name, "value": value, "unit": unit}

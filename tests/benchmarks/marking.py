"""How long marking takes, beside nbgrader as it comes and beside the bare cells.

The class is invented. Timed are submissions that nbgrader as it comes gets to the end of: no
endless loop, no broken file, no copied or deleted cells. Both commands are timed whole, their
start included, on the same files one after the other. Beside the bare cells also the time of the
processor is told, of all cores together: on a busy computer that says more than the clock. The
gradebook rows are compared with those that our scoring makes of what nbgrader's own kernels ran, on
the same files again.
``MARKING_CLASS`` changes the number of notebooks, ``MARKING_MANY`` that in the test of scale.

``python -m tests.benchmarks.marking`` measures beside the bare cells alone, three times.
"""

import json
import math
import os
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

from fuelmarks.course.course import Course
from fuelmarks.demo.invented_class import HABITS

from tests.scratch_class import OWN_KERNELS, UNIT, class_list, new_class, own_jupyter, rows, twin

CLASS = int(os.environ.get("MARKING_CLASS", "30"))
MANY = int(os.environ.get("MARKING_MANY", "200"))
TROUBLE = ("an endless loop", "file broken off", "cells copied", "cells deleted")

AS_IT_COMES = """
del c.Autograde.sanitize_preprocessors
del c.Autograde.autograde_preprocessors
c.Execute.iopub_timeout = 60
"""
OURS = ("-m", "fuelmarks.commands.cli", "mark", UNIT)
NBGRADER = ("-m", "nbgrader", "autograde", UNIT)


def measures() -> Iterator[dict[str, Any]]:
    """Yield the times, the ratios, the rows that differ, and how a large class goes."""
    with tempfile.TemporaryDirectory() as scratch:
        folder = Path(scratch)
        course = sound_class(folder / "class", CLASS)
        yield from _many(folder / "many")
        yield from _beside_nbgrader(course, folder)


def sound_class(folder: Path, size: int) -> Course:
    """Return a course in which `size` trainees have handed in what can be run to its end."""
    sound = len(HABITS) - len(TROUBLE)
    course, habits = new_class(folder, class_list(len(HABITS) * math.ceil(size / sound)))
    kept = [trainee for trainee, habit in habits.items() if habit not in TROUBLE][:size]
    for path in (course.root / "submitted").iterdir():
        if path.name not in kept:
            shutil.rmtree(path)
    return course


def _beside_nbgrader(course: Course, folder: Path) -> Iterator[dict[str, Any]]:
    as_it_comes, ours = twin(course, folder / "stock", AS_IT_COMES), twin(course, folder / "ours")
    spent, bare = _beside_bare(ours, folder)
    fast = spent["wall"] / CLASS
    slow = _seconds(NBGRADER, as_it_comes.root, folder) / CLASS
    theirs, found = _from_kernels(course, folder), rows(ours)
    differing = sum(theirs.get(key) != found.get(key) for key in theirs.keys() | found.keys())
    yield _measure("notebooks marked", CLASS, "1")
    yield _measure("nbgrader as it comes, a notebook", slow, "s")
    yield _measure("fuelmarks mark, a notebook", fast, "s")
    yield _measure("nbgrader over fuelmarks", slow / fast, "1")
    yield _measure("bare cells, a notebook", bare["wall"] / CLASS, "s")
    yield _measure("fuelmarks over bare cells", spent["wall"] / bare["wall"], "1")
    over = spent["processor"] / bare["processor"]
    yield _measure("fuelmarks over bare cells, processor", over, "1")
    yield _measure("gradebook rows", len(found), "1")
    yield _measure("gradebook rows that differ from nbgrader's own kernels", differing, "1")


def _beside_bare(course: Course, folder: Path) -> tuple[dict[str, float], dict[str, float]]:
    """Mark a class, then run its cells bare; return what each spent."""
    spent = _spent(OURS, course.root, folder)
    bare = _run(("-m", "tests.benchmarks._bare", str(course.root / "autograded")), folder)
    return spent, json.loads(bare)


def _from_kernels(course: Course, folder: Path) -> dict[tuple[str, str], tuple[Any, ...]]:
    """Return the rows after nbgrader's own kernels: half the class on each of two cores."""
    halves = [twin(course, folder / name, OWN_KERNELS) for name in ("first", "second")]
    for number, half in enumerate(halves):
        for path in sorted((half.root / "submitted").iterdir())[1 - number :: 2]:
            shutil.rmtree(path)
    with ThreadPoolExecutor(2) as pool:
        list(pool.map(lambda half: _seconds(NBGRADER, half.root, folder), halves))
    return rows(halves[0]) | rows(halves[1])


def _many(folder: Path) -> Iterator[dict[str, Any]]:
    """Yield time and memory of a class of `MANY`."""
    sound_class(folder, MANY)
    words = ("-m", "tests.benchmarks._many", str(folder), UNIT, str(MANY // 4))
    found = json.loads(_run(words, folder))
    seconds, held = found["seconds"], found["memory"]
    yield _measure("notebooks in a large class", MANY, "1")
    yield _measure("large class, a notebook", (seconds[4] - seconds[0]) / (MANY - 1), "s")
    for quarter in range(1, 5):
        spent = seconds[quarter] - seconds[quarter - 1]
        yield _measure(f"large class, time of quarter {quarter}", spent, "s")
        yield _measure(f"large class, memory after quarter {quarter}", held[quarter] / 1e6, "MB")
    yield _measure("large class, memory of all processes", found["whole"] / 1e6, "MB")


def _seconds(words: Sequence[str], where: Path, folder: Path) -> float:
    start = time.perf_counter()
    _run(words, folder, where)
    return time.perf_counter() - start


def _spent(words: Sequence[str], where: Path, folder: Path) -> dict[str, float]:
    """Return what one Python command spends: wall and processor, with all that it starts."""
    command = (str(Path(__file__).with_name("_spent.py")), sys.executable, *words)
    found: dict[str, float] = json.loads(_run(command, folder, where))
    return found


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


def main() -> None:
    """Print how many times as long as its bare cells a class takes to be marked."""
    with tempfile.TemporaryDirectory() as scratch:
        folder = Path(scratch)
        course = sound_class(folder / "class", CLASS)
        for number in range(3):
            spent, bare = _beside_bare(twin(course, folder / f"round-{number}"), folder)
            wall, processor = (spent[one] / bare[one] for one in ("wall", "processor"))
            print(
                f"marking over bare cells: {wall:.1f}, of the processor {processor:.1f}", flush=True
            )


if __name__ == "__main__":
    main()

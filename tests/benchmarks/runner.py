"""How long the runner takes for a notebook of thirty-one cells, and what many of them leave.

``RUNNER_MANY`` changes the number of notebooks.
"""

import contextlib
import io
import os
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from statistics import median
from typing import Any

from fuelmarks.runner import Cell, Runner

from tests.processes import memory

MANY = int(os.environ.get("RUNNER_MANY", "300"))
BEGIN = """
from fuelcircuits.answer_sheet.sheet import begin, hand_over
from fuelcircuits.quantities.units import Q
sheet = begin("02-float-bowl")
pressure = Q(5.1, "psi")
"""
LOOK = 'pressure.to("kPa")'
ANSWER = 'force{0} = (pressure * Q({0}, "mm**2")).to("N")'
HAND_OVER = 'hand_over("02-float-bowl", "force{0}", force{0}, unit="N", low=0.05, high=20)'


def measures() -> Iterator[dict[str, Any]]:
    """Yield the times for one and for many notebooks, and the memory that many take."""
    start = time.perf_counter()
    with Runner() as runner:
        yield _measure("runner, start", time.perf_counter() - start, "s")
        one = median(_seconds(lambda: runner.run(_notebook())) for _ in range(9))
        empty = median(_seconds(lambda: runner.run([Cell("a", "")])) for _ in range(9))
        bare = median(_seconds(_bare) for _ in range(9))
        yield _measure("runner, an empty notebook", empty, "s")
        yield _measure("runner, a notebook of 31 cells", one, "s")
        yield _measure("runner, the same cells without it", bare, "s")
        yield from _many(runner)


def _many(runner: Runner) -> Iterator[dict[str, Any]]:
    before = memory(os.getpid())
    seconds = _seconds(lambda: _exhaust(runner, MANY))
    yield _measure("runner on all cores, a notebook", seconds / MANY, "s")
    yield _measure(
        f"runner, memory left by {MANY} notebooks", (memory(os.getpid()) - before) / 1e6, "MB"
    )


def _exhaust(runner: Runner, number: int) -> None:
    with ThreadPoolExecutor(len(os.sched_getaffinity(0))) as pool:
        for result in pool.map(runner.run, (_notebook() for _ in range(number))):
            if len(result.records) != 10:
                raise RuntimeError(f"records must be 10, got {len(result.records)}")


def _notebook() -> list[Cell]:
    cells = [Cell("begin", BEGIN)]
    for i in range(1, 11):
        cells += [Cell(f"look{i}", LOOK), Cell(f"answer{i}", ANSWER.format(i))]
        cells += [Cell(f"hand{i}", HAND_OVER.format(i), hands_over=True)]
    return cells


def _bare() -> None:
    names: dict[str, Any] = {}
    with contextlib.redirect_stdout(io.StringIO()):
        for cell in _notebook():
            exec(cell.source, names)


def _seconds(work: Any) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def _measure(name: str, value: float, unit: str) -> dict[str, Any]:
    return {"name": name, "value": value, "unit": unit}

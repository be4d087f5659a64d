"""What a second worker brings: marking by one worker of one core, and by two, of the same class.

The class is invented: sound notebooks, copied until there are ``CLUSTER_CLASS`` (300). Timed is
`mark_class` from the first notebook to the last entry, scheduler and workers being ready. All that
marks runs on as many cores as there are workers: worker, scheduler and the gradebook's home on one
core, then two of them and the same on two, each worker on a core of its own. On computers with
more cores the home does not share the workers', so its own pace is told too: how many notebooks a
second it takes in when they are run at once. Rows and comments are held against the local runner's.

``python -m tests.benchmarks.cluster`` prints all of it.
"""

import os
import tempfile
import time
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

from fuelmarks.classroom.mark_class import mark_class
from fuelmarks.course.course import Course
from fuelmarks.runner import Cell, Limits, Runner
from fuelmarks.runner.far import FarRunner
from fuelmarks.runner.protocol import RunResult

from tests.benchmarks.marking import sound_class
from tests.cluster import Cluster
from tests.scratch_class import COMMENTS, ROWS, UNIT, rows, twin

CLASS = int(os.environ.get("CLUSTER_CLASS", "300"))


def measures() -> Iterator[dict[str, Any]]:
    """Yield the notebooks a second by workers, their ratio, and the rows that differ."""
    with tempfile.TemporaryDirectory() as scratch:
        folder = Path(scratch)
        course = sound_class(folder / "class", CLASS)
        here, known = _here(twin(course, folder / "here"))
        pace: dict[int, float] = {}
        differ = 0
        for workers in (1, 2):
            far = twin(course, folder / f"far-{workers}")
            pace[workers] = _pace(far, folder / f"papers-{workers}", workers)
            differ += _differing(here, far)
        yield _measure("cluster, notebooks", CLASS, "1")
        for workers, found in pace.items():
            yield _measure(f"cluster, {workers} of one core, notebooks a second", found, "1/s")
        yield _measure("cluster, two workers over one", pace[2] / pace[1], "1")
        yield _measure("cluster, rows that differ from the local runner's", differ, "1")
        home = _taken_in(twin(course, folder / "home"), known)
        yield _measure("cluster, home alone on one core, notebooks a second", home, "1/s")


def _here(course: Course) -> tuple[Course, dict[Any, RunResult]]:
    """Mark a class by the local runner; return it, and by its cells what became of each."""
    with Runner(hidden=[course.root]) as runner:
        noting = _Noting(runner)
        list(mark_class(course, UNIT, runner=noting))
    return course, noting.known


def _pace(course: Course, papers: Path, workers: int) -> float:
    """Return how many notebooks a second `workers` mark, all on as many cores."""
    papers.mkdir()
    cores = sorted(os.sched_getaffinity(0))
    if len(cores) < workers:
        raise RuntimeError(f"cores must be {workers} or more, got {len(cores)}")
    os.sched_setaffinity(0, cores[:workers])
    cluster = Cluster(papers)
    try:
        cluster.begin(workers=0)
        for core in cores[:workers]:
            os.sched_setaffinity(0, [core])
            cluster.worker()
        os.sched_setaffinity(0, cores[:workers])
        cluster.wait(workers)
        with FarRunner(cluster.address, papers) as runner:
            return _marked_per_second(course, runner)
    finally:
        os.sched_setaffinity(0, cores)
        cluster.end()


def _taken_in(course: Course, known: dict[Any, RunResult]) -> float:
    """Return how many notebooks a second one core takes in that were run before."""
    cores = os.sched_getaffinity(0)
    os.sched_setaffinity(0, sorted(cores)[:1])
    try:
        return _marked_per_second(course, _Known(known))
    finally:
        os.sched_setaffinity(0, cores)


def _marked_per_second(course: Course, runner: Any) -> float:
    start = time.perf_counter()
    states = [done.state for done in mark_class(course, UNIT, runner=runner)]
    if set(states) != {"marked"}:
        raise RuntimeError(f"all must be marked, got {set(states)}")
    return len(states) / (time.perf_counter() - start)


def _differing(one: Course, other: Course) -> int:
    """Return how many rows and comments differ between two gradebooks."""
    differ = 0
    for asked in (ROWS, COMMENTS):
        theirs, ours = rows(one, asked), rows(other, asked)
        differ += sum(theirs.get(key) != ours.get(key) for key in theirs.keys() | ours.keys())
    return differ


class _Noting:
    """A runner that notes what became of each notebook."""

    def __init__(self, runner: Runner) -> None:
        self.runner, self.limits, self.places = runner, runner.limits, runner.places
        self.known: dict[Any, RunResult] = {}

    def run(self, cells: Sequence[Cell], limits: Limits | None = None) -> RunResult:
        found = self.known[tuple(cells)] = self.runner.run(cells, limits)
        return found


class _Known:
    """What takes the place of workers that take no time."""

    limits, places = Limits(), 1

    def __init__(self, known: dict[Any, RunResult]) -> None:
        self.known = known

    def run(self, cells: Sequence[Cell], limits: Limits | None = None) -> RunResult:
        return self.known[tuple(cells)]


def _measure(name: str, value: float, unit: str) -> dict[str, Any]:
    return {"name": name, "value": value, "unit": unit}


if __name__ == "__main__":
    for one in measures():
        print(f"{one['name']}: {one['value']:.4g} {one['unit']}", flush=True)

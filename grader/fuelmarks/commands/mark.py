"""``fuelmarks mark``: run and mark what was handed in, and enter it in the gradebook.

The runner warms up while what reads the answers is still being loaded, so nothing slow is loaded
before it has begun.
"""

import argparse
import gc
import importlib
from collections import Counter
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from fuelmarks.classroom.progress import Progress
from fuelmarks.classroom.rehearsal import rehearsal
from fuelmarks.commands import arguments
from fuelmarks.course.course import Course, CourseError
from fuelmarks.runner import Runner

__all__ = ["options", "run"]


def options(parser: argparse.ArgumentParser) -> None:
    """Ask for the unit, whose notebooks, and whether they are trusted."""
    arguments.unit(parser)
    parser.add_argument(
        "--only", action="append", default=[], metavar="ID", help="this trainee only; repeatable"
    )
    parser.add_argument("--again", action="store_true", help="also what is marked already")
    parser.add_argument(
        "--trust-class",
        action="store_true",
        help="run notebooks without the sandbox, with all your own rights",
    )
    parser.add_argument(
        "--scheduler", metavar="ADDRESS", help="run them on a Dask scheduler's workers: tls://…"
    )
    parser.add_argument(
        *("--papers",),
        type=Path,
        default=Path("papers"),
        metavar="DIR",
        help="its ca.pem, certificate.pem and key.pem (papers)",
    )


def run(asked: argparse.Namespace) -> int:
    """Run and mark what was handed in; return 1 if a submission was passed over."""
    course = Course.at(asked.course)
    course.text(asked.unit)
    with _warm_runner(_runner(asked, course)) as (runner, marking):
        waiting = marking.submitted(course, asked.unit, asked.only)
        bar = Progress("marking", len(waiting))
        found: Counter[str] = Counter()
        for done in marking.mark_class(
            course, asked.unit, only=asked.only, again=asked.again, runner=runner
        ):
            found[done.state] += 1
            bar.step(done.trainee)
            if done.reason:
                bar.say(f"passed over {done.trainee}: {done.reason}")
            for change in done.changes:
                bar.say(f"{done.trainee}: {change.words}")
        bar.close()
    marked, kept, passed = (found[word] for word in ("marked", "kept", "passed over"))
    print(f"{marked} marked, {kept} marked before, {passed} passed over")
    importlib.import_module("fuelmarks.commands.left_out").say_who_is_left_out(course, asked.unit)
    return 1 if passed else 0


def _runner(asked: argparse.Namespace, course: Course) -> Any:
    """Return what runs the notebooks: this computer, or workers elsewhere."""
    if not asked.scheduler:
        cells = rehearsal(course, asked.unit, asked.only)
        return Runner(trust=asked.trust_class, hidden=[course.root], rehearsal=cells)
    if asked.trust_class:
        raise CourseError("notebooks elsewhere must be confined, got --trust-class")
    return importlib.import_module("fuelmarks.runner.far").FarRunner(asked.scheduler, asked.papers)


@contextmanager
def _warm_runner(runner: Any) -> Iterator[tuple[Any, Any]]:
    """Yield a runner and the module that marks, each made ready while the other is."""
    with ThreadPoolExecutor(1, "warming") as pool:
        warming = pool.submit(runner.__enter__)
        gc.disable()  # nothing that is being loaded is rubbish yet
        marking = importlib.import_module("fuelmarks.classroom.mark_class")
        gc.enable()
        gc.freeze()
        warming.result()
    try:
        yield runner, marking
    finally:
        runner.close()

"""What ``fuelmarks mark`` does. The runner warms up while nbgrader is still being loaded."""

import argparse
import importlib
from collections import Counter
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from typing import Any

from fuelmarks.classroom.progress import Progress
from fuelmarks.course.course import Course
from fuelmarks.runner import Runner

__all__ = ["mark"]


def mark(asked: argparse.Namespace) -> int:
    """Run and mark what was handed in; return 1 if a submission was passed over."""
    course = Course.at(asked.course)
    course.text(asked.unit)
    with _warm_runner(asked.trust_class) as (runner, marking):
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
        bar.close()
    marked, kept, passed = (found[word] for word in ("marked", "kept", "passed over"))
    print(f"{marked} marked, {kept} marked before, {passed} passed over")
    return 1 if passed else 0


@contextmanager
def _warm_runner(trust: bool) -> Iterator[tuple[Runner, Any]]:
    """Yield a runner and the module that marks, each made ready while the other is."""
    runner = Runner(trust=trust)
    with ThreadPoolExecutor(1, "warming") as pool:
        warming = pool.submit(runner.__enter__)
        marking = importlib.import_module("fuelmarks.classroom.mark_class")
        warming.result()
    try:
        yield runner, marking
    finally:
        runner.close()

"""What holds for every test: repeatable examples, the longest modules first, one warm runner."""

from collections.abc import Iterator

import pytest
from fuelmarks.runner import Runner
from hypothesis import settings

settings.register_profile("repeatable", deadline=None, derandomize=True, max_examples=50)
settings.load_profile("repeatable")

LONGEST = (
    "tests/server/test_hub.py",
    "tests/browser/test_live.py",
    "tests/browser/test_site.py",
    "tests/marking/test_same_marks.py",
    "tests/course/test_course.py",
    "tests/browser/test_benches.py",
    "tests/physics/motion/test_gates.py",
    "tests/physics/motion/test_complaints.py",
    "tests/own_car/test_honest.py",
    "tests/paper/test_pack.py",
    "tests/gradebook/test_hooks.py",
    "tests/benches/frame/test_page.py",
    "tests/benches/live/test_same.py",
    "tests/server/test_postgres.py",
    "tests/own_car/test_rounds.py",
    "tests/physics/motion/test_step.py",
    "tests/browser/test_drive.py",
    "tests/browser/test_owner.py",
    "tests/server/test_forks.py",
    "tests/server/test_cluster.py",
    "tests/study/test_home.py",
    "tests/runner/test_runner.py",
    "tests/test_wheels.py",
    "tests/authoring/test_guards.py",
    "tests/classroom/test_mark_class.py",
    "tests/browser/test_float_unit.py",
    "tests/runner/test_hostile.py",
    "tests/browser/test_float_bench.py",
    "tests/browser/test_marking_pages.py",
    "tests/server/test_exchange.py",
    "tests/physics/network/test_network_properties.py",
)
"""Begun first, so that no worker is left with one of them when the others are done."""


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Put the longest modules first; within a module everything keeps its order."""
    ranks = {name: rank for rank, name in enumerate(LONGEST)}
    items.sort(key=lambda item: ranks.get(item.nodeid.split("::")[0], len(ranks)))


@pytest.fixture(scope="session")
def runner() -> Iterator[Runner]:
    """A runner of notebooks, warm for all tests of a worker that only want some run."""
    with Runner() as warm:
        yield warm

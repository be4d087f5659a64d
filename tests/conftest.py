"""What holds for every test: repeatable examples, and the longest modules begun first."""

import pytest
from hypothesis import settings

settings.register_profile("repeatable", deadline=None, derandomize=True, max_examples=50)
settings.load_profile("repeatable")

LONGEST = (
    "tests/server/test_hub.py",
    "tests/browser/test_live.py",
    "tests/browser/test_site.py",
    "tests/browser/test_benches.py",
    "tests/marking/test_same_marks.py",
    "tests/course/test_course.py",
    "tests/benches/live/test_same.py",
    "tests/benches/frame/test_page.py",
    "tests/browser/test_drive.py",
    "tests/browser/test_owner.py",
    "tests/authoring/test_guards.py",
    "tests/gradebook/test_hooks.py",
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
